"use client";

import { useRouter } from "next/navigation";
import { type ReactNode, useState } from "react";
import { v7 } from "uuid";
import type { RecordedGrade } from "@/lib/services/growing/grades";
import { ButtonLink } from "@/lib/ui/components/button";
import { Notice } from "@/lib/ui/components/notice";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { isStaleRefusal, StaleNotice } from "@/lib/ui/components/stale-notice";
import { DraftNote } from "@/lib/ui/drafts/draft-note";
import { useDraft } from "@/lib/ui/drafts/use-draft";
import { recordingMessages } from "@/lib/ui/messages/en/recording";
import { localNow, withOffset } from "@/lib/ui/moments";
import type { SentProblem } from "@/lib/ui/send";
import { newDraft, type Standing } from "./draft";
import { loadSending } from "./load-later";
import type { OpenStepProps } from "./opened-steps";
import { Heading, StepForm } from "./step-form";

const words = recordingMessages.record;

interface Props extends OpenStepProps {
  readonly code: string;
  readonly standing: Standing | null;
  /** The standing record in words. */
  readonly standingWords: string | null;
  /** What the standing record gives; shown once it is the one just sent. */
  readonly result: ReactNode;
}

/** One question at a time; every answer may stay open, and what is typed stays on the phone until it is sent. */
export function GradeStepper(props: Props) {
  const { boxId, isOpened, standing } = props;
  const router = useRouter();
  const { draft, state, change, forget } = useDraft(`grade/${boxId}`, () => newDraft(standing));
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<SentProblem | null>(null);
  const [recorded, setRecorded] = useState<RecordedGrade | null>(null);
  const isStale = !recorded && state !== "untouched" && draft.basedOn !== (standing?.revision ?? null);

  async function save() {
    const sending = change({ recordedAt: draft.recordedAt ?? withOffset(localNow()) });
    setBusy(true);
    setProblem(null);
    const { sendGrade } = await loadSending();
    const sent = await sendGrade(boxId, isOpened, sending);
    setBusy(false);
    if (sent.ok) {
      forget();
      setRecorded(sent.value);
    } else {
      setProblem(sent.problem);
    }
    if (sent.ok || isStaleRefusal(sent.problem)) router.refresh();
  }

  if (recorded) {
    return (
      <>
        <Heading code={props.code} />
        <Notice kind="ok">{recorded.late ? words.sentLate : words.sent}</Notice>
        {standing?.revision === recorded.revision ? props.result : null}
      </>
    );
  }
  return (
    <StepForm
      draft={draft}
      change={change}
      busy={busy}
      onSave={save}
      code={props.code}
      corrects={draft.basedOn}
      boxId={boxId}
      isOpened={isOpened}
      photos={props.photos}
    >
      {isStale ? (
        <StaleNotice
          words={words}
          standing={props.standingWords && words.staleStands(props.standingWords)}
          onKeepMine={() => {
            setProblem(null);
            change({ id: v7(), basedOn: standing?.revision ?? null, recordedAt: null });
          }}
          onTakeStanding={() => {
            setProblem(null);
            forget(newDraft(standing));
          }}
        />
      ) : (
        <ProblemNotice problem={problem} />
      )}
      {problem?.reason === "SIGN_IN_FIRST" ? (
        <p className="mb-3">
          <ButtonLink href={`/sign-in?next=${encodeURIComponent(window.location.pathname)}`}>
            {words.signIn}
          </ButtonLink>
        </p>
      ) : null}
      <DraftNote state={state} />
    </StepForm>
  );
}
