import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { env } from "@/lib/env";
import { openedTrial } from "@/lib/services/lead/recruit";
import { reading } from "@/lib/services/run";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { recruitMessages as words } from "@/lib/ui/messages/en/recruit";
import { CapacityForm } from "./_components/capacity-form";

export const metadata: Metadata = { title: words.title };

export default async function RecruitPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const actor = await requireActor(`/lead/trials/${id}/recruit`);
  const found = await reading((tx) => openedTrial(tx, actor, id));
  if (!found.ok) notFound();
  const trial = found.value;
  const path = `/join/${trial.joinCode}`;
  return (
    <>
      <p className="mb-1 text-quiet">{trial.title}</p>
      <PageHeading title={words.title} lead={words.lead} />
      {trial.status === "open" ? null : <Notice kind="info">{words.closed}</Notice>}
      <Facts
        items={[
          {
            label: words.address,
            value: (
              <Link href={path} className="-my-2.5 inline-block break-all py-2.5">
                {new URL(path, env().NEXTAUTH_URL).href}
              </Link>
            ),
          },
          { label: words.code, value: <span className="font-mono">{trial.joinCode}</span> },
        ]}
      />
      <p>
        <a href={`/lead/trials/${trial.id}/recruit/poster`} className="inline-flex min-h-11 items-center">
          {words.poster.link}
        </a>
      </p>
      <p className="mb-8 max-w-[42em] text-quiet">{words.poster.note}</p>
      <h2 className="mb-1">{words.regionsTitle}</h2>
      <p className="mb-4 max-w-[42em] text-quiet">{words.regionsLead}</p>
      <ul className="mb-6 max-w-[44em] border-t-2 border-ink">
        {trial.regions.map((region) => (
          <li key={region.id} className="border-b border-line py-4">
            <h3>{region.name}</h3>
            <p className="mb-2 text-quiet">{words.regionState(region.seatsTaken, region.waiting)}</p>
            <CapacityForm trialId={trial.id} region={region} isOpen={trial.status === "open"} />
          </li>
        ))}
      </ul>
      <p>
        <Link href={`/lead/trials/${trial.id}`} className="inline-flex min-h-11 items-center">
          {words.back}
        </Link>
      </p>
    </>
  );
}
