import type { Metadata } from "next";
import { headers } from "next/headers";
import { notFound } from "next/navigation";
import { askedFrom } from "@/lib/auth/request-origin";
import { currentActor } from "@/lib/auth/session";
import { joinView } from "@/lib/services/growing/join";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { Caution } from "@/lib/ui/components/caution";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { dayWords } from "@/lib/ui/format";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { problemMessages } from "@/lib/ui/messages/en/problems";
import { JoinForm } from "./_components/join-form";

const words = growingMessages.join;

export const metadata: Metadata = { title: words.metaTitle };

export default async function JoinPage({ params }: { params: Promise<{ code: string }> }) {
  const joinCode = decodeURIComponent((await params).code);
  const actor = await currentActor();
  const from = askedFrom(await headers());
  const view = await reading((tx) => joinView(tx, actor, joinCode, from));
  if (!view.ok && view.reason === "TOO_MANY_REQUESTS") {
    const { title, detail } = problemMessages.TOO_MANY_REQUESTS;
    return <PageHeading title={title} lead={detail} />;
  }
  if (!view.ok) notFound();
  const { trial, householdRegionId, hasAgreed } = view.value;
  const heading = <PageHeading title={words.title(trial.title)} lead={trial.question} />;
  if (trial.status !== "open") {
    return (
      <>
        {heading}
        <Notice kind="info">{words.closed}</Notice>
        <ButtonLink href={`/trials/${trial.slug}`}>{words.toTrial}</ButtonLink>
      </>
    );
  }
  if (hasAgreed && householdRegionId) {
    return (
      <>
        {heading}
        <Notice kind="ok">{words.member}</Notice>
        <p className="flex flex-wrap gap-3">
          <ButtonLink href={`/outings/new?trial=${trial.id}`}>{words.plan}</ButtonLink>
          <ButtonLink kind="quiet" href="/sites/new">
            {words.addPlace}
          </ButtonLink>
        </p>
      </>
    );
  }
  return (
    <>
      {heading}
      <h2 className="mb-2">{words.asksTitle}</h2>
      <Points items={[...words.asks, words.until(dayWords(trial.ends.endsOn))]} />
      <Caution title={words.dangerTitle}>
        {Object.values(words.danger).map((text) => (
          <p key={text}>{text}</p>
        ))}
      </Caution>
      <h2 className="mb-2">{words.sharedTitle}</h2>
      <Points items={words.shared} />
      <h2 className="mb-2">{words.privateTitle}</h2>
      <Points items={words.private} />
      {actor ? (
        <JoinForm joinCode={joinCode} regions={trial.regions} householdRegionId={householdRegionId} />
      ) : (
        <>
          <p className="mb-3">{words.signInFirst}</p>
          <ButtonLink href={`/sign-in?next=${encodeURIComponent(`/join/${encodeURIComponent(joinCode)}`)}`}>
            {words.signIn}
          </ButtonLink>
        </>
      )}
    </>
  );
}

function Points({ items }: { items: readonly string[] }) {
  return (
    <ul className="mb-6 max-w-[44em] list-disc space-y-1 pl-6">
      {items.map((item) => (
        <li key={item}>{item}</li>
      ))}
    </ul>
  );
}
