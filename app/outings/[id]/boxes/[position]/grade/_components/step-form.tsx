"use client";

import { lazy, type ReactNode, Suspense, useEffect, useRef, useState } from "react";
import { Button } from "@/lib/ui/components/button";
import { measureFaults, recordingMessages } from "@/lib/ui/messages/en/recording";
import { localNow } from "@/lib/ui/moments";
import { BeforeStep, WarmthStep } from "./closed-steps";
import { type GradeDraft, STEPS, type Step } from "./draft";
import { type Fault, faultsOf, inputId, type NumberField } from "./faults";
import { loadOpenedSteps, loadSending } from "./load-later";
import type { StepProps } from "./measure-choice";
import type { OpenStepProps } from "./opened-steps";

const words = recordingMessages.record;

const LaterStep = lazy(async () => ({ default: (await loadOpenedSteps()).OpenedStep }));

export function Heading({ code, step }: { code: string; step?: Step }) {
  return (
    <div className="mb-4 flex items-baseline justify-between gap-3 border-b-2 border-ink pb-2">
      <h1>{words.title(code)}</h1>
      {step ? (
        <span className="shrink-0 text-quiet">{words.step(STEPS.indexOf(step) + 1, STEPS.length)}</span>
      ) : null}
    </div>
  );
}

interface Props extends OpenStepProps {
  readonly code: string;
  /** The revision that this corrects; null for a first record. */
  readonly corrects: number | null;
  readonly draft: GradeDraft;
  readonly change: (part: Partial<GradeDraft>) => void;
  readonly busy: boolean;
  readonly onSave: () => Promise<void>;
  /** What there is to say about where the answers stand. */
  readonly children: ReactNode;
}

/** The question that is due, with the ways forward, back and to the end. */
export function StepForm({ draft, change, busy, onSave, children, corrects, code, ...props }: Props) {
  const question = useRef<HTMLHeadingElement>(null);
  const shown = useRef(draft.step);
  /** The step whose numbers were found at fault. */
  const [checked, setChecked] = useState<Step | null>(null);
  const { step } = draft;
  const at = STEPS.indexOf(step);
  const isLast = step === "finish";
  const faults = faultsOf(draft);

  useEffect(() => {
    void loadOpenedSteps();
    void loadSending();
  }, []);
  useEffect(() => {
    if (shown.current === step) return;
    shown.current = step;
    question.current?.focus();
  }, [step]);

  /** Goes on, unless a number here can't be used; to that number then. */
  function go(next: Step | "save") {
    const fault = faults.find((each) => next === "save" || each.step === step);
    if (fault) return goTo(fault);
    if (next === "save") void onSave();
    else if (next === "open") change({ step: next, openedAt: draft.openedAt || localNow() });
    else change({ step: next });
  }

  function goTo(fault: Fault) {
    setChecked(fault.step);
    if (fault.step !== step) change({ step: fault.step });
    requestAnimationFrame(() => document.getElementById(inputId(fault.field))?.focus());
  }

  const errorOf = (field: NumberField) => {
    const fault = checked === step ? faults.find((each) => each.field === field) : undefined;
    return fault && measureFaults[fault.code];
  };
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        go(STEPS[at + 1] ?? "save");
      }}
    >
      <Heading code={code} step={step} />
      {corrects === null ? null : <p className="mb-3 text-quiet">{words.standing(corrects)}</p>}
      <h2 ref={question} tabIndex={-1} className="mb-4 max-w-[28em] text-[1.5rem]">
        {words.question[step]}
      </h2>
      <StepFields draft={draft} change={change} errorOf={errorOf} {...props} />
      {children}
      {isLast || at === 0 ? null : (
        <button
          type="button"
          className="mb-2 min-h-[44px] text-act underline underline-offset-[0.15em]"
          onClick={() => go("finish")}
        >
          {words.toFinish}
        </button>
      )}
      <div className="sticky bottom-0 flex gap-2.5 border-t border-line bg-ground py-3">
        {at > 0 ? (
          <Button type="button" kind="quiet" onClick={() => change({ step: STEPS[at - 1] })}>
            {words.back}
          </Button>
        ) : null}
        <Button className="flex-1" disabled={busy}>
          {busy ? words.sending : isLast && corrects !== null ? words.saveCorrection : words.next[step]}
        </Button>
      </div>
    </form>
  );
}

function StepFields(props: StepProps & OpenStepProps) {
  const { step } = props.draft;
  if (step === "before") return <BeforeStep />;
  if (step === "warmth") return <WarmthStep {...props} />;
  return (
    <Suspense
      fallback={
        <p role="status" className="mb-5 text-quiet">
          {words.coming}
        </p>
      }
    >
      <LaterStep step={step} {...props} />
    </Suspense>
  );
}
