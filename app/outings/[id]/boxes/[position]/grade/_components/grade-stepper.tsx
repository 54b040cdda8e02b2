"use client";

import { useRouter } from "next/navigation";
import { useEffect, useRef, useState } from "react";
import type { RecordedGrade } from "@/lib/services/growing/grades";
import { Button } from "@/lib/ui/components/button";
import { Notice } from "@/lib/ui/components/notice";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { localNow, withOffset } from "@/lib/ui/moments";
import { type SentProblem, sendWrite } from "@/lib/ui/send";
import type { GradeMeasures } from "@/shared/schemas/grade";
import { measuresOf } from "./draft";
import { GradeResult } from "./grade-result";
import { CautionStep, ColoursStep, CoverStep, FeelStep, GramsStep, NoteStep } from "./steps";
import { useDraft } from "./use-draft";

const words = growingMessages.grade;

const STEPS = [
  { question: words.cautionTitle, next: words.start },
  { question: words.coverQuestion, next: words.toColours },
  { question: words.coloursQuestion, next: words.toDepth },
  { question: words.depthQuestion, next: words.toGrams },
  { question: words.gramsQuestion, next: words.toNote },
  { question: words.noteQuestion, next: words.save },
] as const;

interface Props {
  readonly outingId: string;
  readonly boxId: string;
  readonly code: string;
  readonly isOpened: boolean;
  readonly standing: { readonly revision: number; readonly measures: GradeMeasures } | null;
  readonly recipeName: string | null;
  readonly nextPosition: number | null;
}

/** One question at a time; every answer may stay open, and what is typed survives a reload until it is sent. */
export function GradeStepper(props: Props) {
  const { boxId, code, isOpened, standing } = props;
  const router = useRouter();
  const { draft, isKept, change, forget } = useDraft(boxId, standing);
  const [basedOn] = useState(standing?.revision ?? null);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<SentProblem | null>(null);
  const [recorded, setRecorded] = useState<RecordedGrade | null>(null);
  const question = useRef<HTMLHeadingElement>(null);
  const shown = useRef(draft.step);
  const step = STEPS[draft.step] ?? STEPS[0];
  const isLast = draft.step === STEPS.length - 1;

  useEffect(() => {
    if (shown.current === draft.step) return;
    shown.current = draft.step;
    question.current?.focus();
  }, [draft.step]);

  async function save() {
    const { id, openedAt, note, recordedAt } = change({
      recordedAt: draft.recordedAt ?? withOffset(localNow()),
    });
    setBusy(true);
    setProblem(null);
    const body = {
      id,
      boxId,
      measures: measuresOf(draft),
      openedAt: isOpened ? null : withOffset(openedAt),
      recordedAt,
      basedOn,
      note: note.trim() === "" ? null : note,
    };
    const sent = await sendWrite<RecordedGrade>("/api/v1/grades", body, growingMessages.noSignal);
    setBusy(false);
    if (!sent.ok) return setProblem(sent.problem);
    forget();
    setRecorded(sent.value);
    router.refresh();
  }

  return (
    <>
      <div className="mb-4 flex items-baseline justify-between border-b-2 border-ink pb-2">
        <h1>{words.title(code)}</h1>
        {recorded ? null : <span className="text-quiet">{words.step(draft.step + 1, STEPS.length)}</span>}
      </div>
      {recorded ? (
        <GradeResult recorded={recorded} {...props} />
      ) : (
        <form
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            if (isLast) void save();
            else change({ step: draft.step + 1 });
          }}
        >
          {standing ? <Notice kind="info">{words.standing(standing.revision)}</Notice> : null}
          <h2 ref={question} tabIndex={-1} className="mb-4 max-w-[28em] text-[1.5rem]">
            {step.question}
          </h2>
          <StepFields index={draft.step} draft={draft} change={change} isOpened={isOpened} />
          {problem?.reason === "CHANGED_MEANWHILE" ? <Stale /> : <ProblemNotice problem={problem} />}
          <p role="status" className="mb-3 font-semibold text-quiet">
            {isKept ? words.onPhone : null}
          </p>
          <div className="sticky bottom-0 flex gap-2.5 border-t border-line bg-ground py-3">
            {draft.step > 0 ? (
              <Button type="button" kind="quiet" onClick={() => change({ step: draft.step - 1 })}>
                {words.back}
              </Button>
            ) : null}
            <Button className="flex-1" disabled={busy}>
              {busy ? growingMessages.sending : isLast && standing ? words.saveCorrection : step.next}
            </Button>
          </div>
        </form>
      )}
    </>
  );
}

function StepFields({ index, ...step }: { index: number } & Parameters<typeof CautionStep>[0]) {
  switch (index) {
    case 1:
      return <CoverStep {...step} />;
    case 2:
      return <ColoursStep {...step} />;
    case 3:
      return <FeelStep {...step} />;
    case 4:
      return <GramsStep {...step} />;
    case 5:
      return <NoteStep {...step} />;
    default:
      return <CautionStep {...step} />;
  }
}

function Stale() {
  return (
    <Notice kind="due">
      <p>{words.stale}</p>
      <Button type="button" kind="quiet" className="mt-2" onClick={() => window.location.reload()}>
        {words.load}
      </Button>
    </Notice>
  );
}
