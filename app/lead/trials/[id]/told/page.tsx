import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { type Told, toldList } from "@/lib/services/lead/hide";
import { reading } from "@/lib/services/run";
import { Photo } from "@/lib/ui/components/photo";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { DeskPage } from "../_components/desk-page";
import { pageNumber } from "../_components/page-number";
import { PageTurner } from "../_components/page-turner";

const { told: words, box } = deskMessages;

export const metadata: Metadata = { title: words.title };

interface Props {
  params: Promise<{ id: string }>;
  searchParams: Promise<{ page?: string }>;
}

export default async function ToldPage({ params, searchParams }: Props) {
  const { id } = await params;
  const page = pageNumber((await searchParams).page);
  const actor = await requireActor(`/lead/trials/${id}/told`);
  const found = await reading((tx) => toldList(tx, actor, { trialId: id, page }));
  if (!found.ok) notFound();
  const { trial, told, more } = found.value;
  return (
    <DeskPage trial={trial} title={words.title} lead={words.lead}>
      {told.length === 0 ? <p>{words.none}</p> : null}
      <ul className="max-w-[44em]">
        {told.map((each) => (
          <li key={each.id} className="border-t border-line py-2">
            <Link
              href={`/lead/trials/${trial.id}/boxes/${encodeURIComponent(each.boxCode)}`}
              className="inline-flex min-h-[44px] items-center"
            >
              {box.title(each.boxCode)}
            </Link>
            <Content told={each} />
          </li>
        ))}
      </ul>
      <PageTurner hrefOf={(to) => `?page=${to}`} page={page} hasMore={more} />
    </DeskPage>
  );
}

function Content({ told: { id, kind, boxCode, text, hiddenReason } }: { told: Told }) {
  return (
    <>
      {kind === "words" ? (
        <p dir="auto" className="whitespace-pre-line">
          {text}
        </p>
      ) : null}
      {kind === "picture" && hiddenReason === null ? (
        <div className="max-w-[14em]">
          <Photo url={`/photos/${id}`} alt={box.pictureOf(boxCode)} hiddenReason={null} />
        </div>
      ) : null}
      {hiddenReason === null ? null : (
        <p dir="auto" className="text-due">
          {box.hidden(hiddenReason)}
        </p>
      )}
    </>
  );
}
