import type { Metadata } from "next";
import { headers } from "next/headers";
import { notFound } from "next/navigation";
import type { Actor } from "@/lib/auth/actor";
import { typedCode } from "@/lib/auth/codes";
import { askedFrom } from "@/lib/auth/request-origin";
import { currentActor } from "@/lib/auth/session";
import { type JoinView, joinView } from "@/lib/services/growing/join";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { Caution } from "@/lib/ui/components/caution";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { dayWords } from "@/lib/ui/format";
import { joinMessages as words } from "@/lib/ui/messages/en/join";
import { planMessages } from "@/lib/ui/messages/en/plan";
import { problemMessages } from "@/lib/ui/messages/en/problems";
import { JoinForm } from "./_components/join-form";
import { Leave, StopWaiting } from "./_components/standing-forms";

export const metadata: Metadata = { title: words.metaTitle };

export default async function JoinPage({ params }: { params: Promise<{ code: string }> }) {
  const joinCode = typedCode(decodeURIComponent((await params).code));
  const actor = await currentActor();
  const from = askedFrom(await headers());
  const view = await reading((tx) => joinView(tx, actor, joinCode, from));
  if (!view.ok && view.reason === "TOO_MANY_REQUESTS") {
    const { title, detail } = problemMessages.TOO_MANY_REQUESTS;
    return <PageHeading title={title} lead={detail} />;
  }
  if (!view.ok) notFound();
  const { trial } = view.value;
  return (
    <>
      <PageHeading title={words.title(trial.title)} lead={trial.question} />
      <Body view={view.value} actor={actor} />
    </>
  );
}

function Body({ view, actor }: { view: JoinView; actor: Actor | null }) {
  const { trial, householdRegionId, hasAgreed, waiting } = view;
  if (trial.status !== "open") {
    return (
      <>
        <Notice kind="info">{words.closed}</Notice>
        <ButtonLink href={`/trials/${trial.slug}`}>{words.toTrial}</ButtonLink>
      </>
    );
  }
  if (waiting) {
    return (
      <>
        <Notice kind="ok">{words.waiting(waiting.regionName, waiting.place)}</Notice>
        <p className="mb-4">{words.waitingLead}</p>
        <StopWaiting trialId={trial.id} joinCode={trial.joinCode} />
      </>
    );
  }
  if (hasAgreed && householdRegionId) return <Member view={view} />;
  return (
    <>
      {view.left ? <Notice kind="info">{words.leftNow}</Notice> : null}
      <BeforeJoining view={view} />
      {actor ? (
        <JoinForm
          joinCode={trial.joinCode}
          regions={trial.regions}
          ownRegionId={householdRegionId ?? view.left?.keptRegionId ?? null}
          ownSeat={householdRegionId ? words.householdHasSeat : words.leftKept}
          submit={view.left ? words.comeBack : words.button}
        />
      ) : (
        <>
          <p className="mb-3">{words.signInFirst}</p>
          <ButtonLink
            href={`/sign-in?next=${encodeURIComponent(`/join/${encodeURIComponent(trial.joinCode)}`)}`}
          >
            {words.signIn}
          </ButtonLink>
        </>
      )}
    </>
  );
}

function Member({ view: { trial, draws, hasPlace } }: { view: JoinView }) {
  return (
    <>
      <Notice kind="ok">{words.member}</Notice>
      {hasPlace ? (
        <ButtonLink href={`/outings/new?trial=${trial.id}`}>{words.plan}</ButtonLink>
      ) : (
        <ButtonLink href="/sites/new">{words.addPlace}</ButtonLink>
      )}
      <Leave trialId={trial.id} joinCode={trial.joinCode} keepsSeat={draws > 0} />
    </>
  );
}

/** What somebody should know before they agree to anything. */
function BeforeJoining({ view: { trial } }: { view: JoinView }) {
  const boxes = planMessages.boxesRange(trial.boxesMin, trial.boxesMax);
  return (
    <>
      <h2 className="mb-2">{words.asksTitle}</h2>
      <Points items={words.asks(boxes)} />
      <Caution title={words.dangerTitle}>
        {Object.values(words.danger).map((text) => (
          <p key={text}>{text}</p>
        ))}
      </Caution>
      <h2 className="mb-2">{words.timeTitle}</h2>
      <Points items={[...words.time, words.until(dayWords(trial.ends.endsOn))]} />
      <h2 className="mb-2">{words.getTitle}</h2>
      <Points items={words.get} />
      <h2 className="mb-2">{words.sharedTitle}</h2>
      <Points items={words.shared} />
      <h2 className="mb-2">{words.privateTitle}</h2>
      <Points items={words.private} />
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
