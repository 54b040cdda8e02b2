import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { v7 } from "uuid";
import { requireActor } from "@/lib/auth/session";
import { letterLog, type SentLetter } from "@/lib/services/lead/letters";
import { reading } from "@/lib/services/run";
import { Notice } from "@/lib/ui/components/notice";
import { momentWords } from "@/lib/ui/format";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { type Audience, audienceSchema } from "@/shared/schemas/letter";
import { DeskPage } from "../_components/desk-page";
import { pageNumber } from "../_components/page-number";
import { PageTurner } from "../_components/page-turner";
import { audienceWords } from "./_components/audience-words";
import { LetterForm } from "./_components/letter-form";

const words = deskMessages.letters;

export const metadata: Metadata = { title: words.title };

interface Props {
  params: Promise<{ id: string }>;
  searchParams: Promise<{ to?: string; page?: string; sent?: string }>;
}

export default async function LettersPage({ params, searchParams }: Props) {
  const [{ id }, asked] = [await params, await searchParams];
  const actor = await requireActor(`/lead/trials/${id}/letters`);
  const page = pageNumber(asked.page);
  const found = await reading((tx) => letterLog(tx, actor, { trialId: id, page }));
  if (!found.ok) notFound();
  const { trial, letters, more } = found.value;
  const to = audienceSchema.safeParse(asked.to);
  return (
    <DeskPage trial={trial} title={words.title} lead={words.lead}>
      {asked.sent ? <Notice kind="ok">{deskMessages.outcomes.SENT}</Notice> : null}
      <section id="write" className="mb-9">
        <h2 className="mb-3">{words.write}</h2>
        <LetterForm
          key={asked.sent}
          trialId={trial.id}
          letterId={v7()}
          to={to.success ? (to.data as Audience) : null}
        />
      </section>
      <section>
        <h2 className="mb-2">{words.log}</h2>
        {letters.length === 0 ? <p>{words.none}</p> : null}
        <ul className="max-w-[44em]">
          {letters.map((letter) => (
            <LetterItem key={letter.id} letter={letter} />
          ))}
        </ul>
        <PageTurner hrefOf={(to) => `?page=${to}`} page={page} hasMore={more} />
      </section>
    </DeskPage>
  );
}

function LetterItem({ letter: { subject, body, sentAt, audience, recipients } }: { letter: SentLetter }) {
  return (
    <li className="border-t border-line">
      <details>
        <summary className="min-h-[44px] cursor-pointer py-2.5">
          <bdi className="font-semibold">{subject}</bdi>
          <span className="block text-quiet">
            {words.sent(momentWords(sentAt), audienceWords(audience as Audience), recipients)}
          </span>
        </summary>
        <p dir="auto" className="mb-4 whitespace-pre-line">
          {body}
        </p>
      </details>
    </li>
  );
}
