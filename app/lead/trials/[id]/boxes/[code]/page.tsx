import type { Metadata } from "next";
import { notFound, redirect } from "next/navigation";
import type { ReactNode } from "react";
import { answersOf } from "@/app/outings/[id]/boxes/[position]/grade/_components/answers";
import { requireActor } from "@/lib/auth/session";
import { type BoxView, boxView } from "@/lib/services/lead/corrections";
import { reading } from "@/lib/services/run";
import { Facts } from "@/lib/ui/components/facts";
import { dayWords, placeMomentWords } from "@/lib/ui/format";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { CORRECTION_KINDS } from "@/shared/vocabulary/desk";
import { DeskPage } from "../../_components/desk-page";
import { AskForm } from "./_components/ask-form";
import { OwnWords, Pictures } from "./_components/own-things";

const { box: words, corrections } = deskMessages;

interface Props {
  params: Promise<{ id: string; code: string }>;
  searchParams: Promise<{ kind?: string }>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: words.title((await params).code) };
}

export default async function LeadBoxPage({ params, searchParams }: Props) {
  const { id, code } = await params;
  const { kind } = await searchParams;
  const actor = await requireActor(`/lead/trials/${id}/boxes/${code}`);
  const found = await reading((tx) => boxView(tx, actor, { trialId: id, code }));
  if (!found.ok) {
    if (found.reason === "NO_SUCH_BOX") redirect(`/lead/trials/${id}/corrections?unknown=${code}`);
    notFound();
  }
  const { trial, box, requests } = found.value;
  return (
    <DeskPage trial={trial} title={words.title(box.code)} lead={words.lead(box.pseudonym)}>
      <Part title={words.events}>
        <Events events={box.events} />
      </Part>
      <Part title={words.record}>
        <Record grades={box.grades} />
      </Part>
      <Part title={words.words} lead={words.wordsLead}>
        <OwnWords trialId={trial.id} box={box} />
      </Part>
      <Part title={words.pictures}>
        <Pictures trialId={trial.id} box={box} />
      </Part>
      {requests.length > 0 ? (
        <Part title={words.asked}>
          <Requests requests={requests} />
        </Part>
      ) : null}
      <Part title={words.ask} lead={words.askLead}>
        <Asking view={found.value} kind={CORRECTION_KINDS.find((each) => each === kind)} />
      </Part>
    </DeskPage>
  );
}

function Part({ title, lead, children }: { title: string; lead?: string; children: ReactNode }) {
  return (
    <section className="mb-8 max-w-[44em]">
      <h2 className="mb-2">{title}</h2>
      {lead ? <p className="mb-3 text-quiet">{lead}</p> : null}
      {children}
    </section>
  );
}

function Events({ events }: Pick<BoxView["box"], "events">) {
  if (events.length === 0) return <p>{words.noEvents}</p>;
  return (
    <ol>
      {events.map(({ id, kind, occurredAt, offsetMinutes, withdrawn }) => (
        <li key={id} className="border-b border-line py-2">
          <span className="font-semibold">{vocabularyMessages.event[kind]}</span>,{" "}
          {placeMomentWords(occurredAt, offsetMinutes)}
          {withdrawn ? ` (${words.withdrawn})` : null}
        </li>
      ))}
    </ol>
  );
}

function Record({ grades }: Pick<BoxView["box"], "grades">) {
  if (grades.length === 0) return <p>{words.noRecord}</p>;
  return grades.map(({ id, revision, measures, take, recordedAt, offsetMinutes }, i) => (
    <details key={id} open={i === 0} className="border-b border-line">
      <summary className="min-h-[44px] cursor-pointer py-2.5 font-semibold">
        {words.version(revision, placeMomentWords(recordedAt, offsetMinutes))}
      </summary>
      <Facts
        items={[
          ...(take === null ? [] : [{ label: words.growth, value: vocabularyMessages.growth[take].name }]),
          ...answersOf(measures),
        ]}
      />
    </details>
  ));
}

function Requests({ requests }: Pick<BoxView, "requests">) {
  return (
    <ul>
      {requests.map(({ id, kind, words: own, askedAt, answer }) => (
        <li key={id} className="border-b border-line py-2">
          <span className="font-semibold">{corrections.kinds[kind]}</span>.{" "}
          {corrections.asked(dayWords(askedAt.toISOString().slice(0, 10)))}.{" "}
          {answer ? corrections.answers[answer] : corrections.waiting}
          {own ? (
            <p dir="auto" className="whitespace-pre-line">
              {own}
            </p>
          ) : null}
        </li>
      ))}
    </ul>
  );
}

function Asking({ view: { trial, box }, kind }: { view: BoxView; kind?: string }) {
  if (trial.status !== "open") return <p>{words.closed}</p>;
  if (!box.isReachable) return <p>{words.gone}</p>;
  return <AskForm trialId={trial.id} code={box.code} kind={kind} />;
}
