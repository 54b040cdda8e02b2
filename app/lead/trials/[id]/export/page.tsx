import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { openedTrial } from "@/lib/services/lead/recruit";
import { reading } from "@/lib/services/run";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { releaseMessages } from "@/lib/ui/messages/en/release";

const words = releaseMessages.export;

export const metadata: Metadata = { title: words.title };

export default async function ExportPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const actor = await requireActor(`/lead/trials/${id}/export`);
  const found = await reading((tx) => openedTrial(tx, actor, id));
  if (!found.ok) notFound();
  const { title, status } = found.value;
  const stage = status === "closed" ? "closed" : "open";
  return (
    <>
      <p className="mb-1 text-quiet">{title}</p>
      <PageHeading title={words.title} lead={words.lead} />
      <ul className="mb-6 max-w-[44em] border-t-2 border-ink">
        <li className="border-b border-line py-2">
          <a href={`/lead/trials/${id}/export/boxes`} download className="inline-flex min-h-11 items-center">
            {words.boxes}
          </a>
          <p className="text-quiet">{words.boxesNote[stage]}</p>
        </li>
        <li className="border-b border-line py-2">
          {stage === "closed" ? (
            <a
              href={`/lead/trials/${id}/results/rows`}
              download
              className="inline-flex min-h-11 items-center"
            >
              {words.rows}
            </a>
          ) : (
            <p className="font-semibold">{words.rows}</p>
          )}
          <p className="text-quiet">{words.rowsNote[stage]}</p>
        </li>
      </ul>
      <p>
        <Link href={`/lead/trials/${id}`} className="inline-flex min-h-11 items-center">
          {releaseMessages.lead.back}
        </Link>
      </p>
    </>
  );
}
