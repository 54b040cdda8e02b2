"use client";

import { useState } from "react";
import { Button } from "@/lib/ui/components/button";
import { CheckField } from "@/lib/ui/components/check-field";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { Notice } from "@/lib/ui/components/notice";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { SelectField } from "@/lib/ui/components/select-field";
import { DraftNote } from "@/lib/ui/drafts/draft-note";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { HAPPENING_EVENTS } from "@/shared/vocabulary/box";
import type { NamedBox } from "./box-picks";
import { ReportMoment, ReportNote } from "./report-fields";
import { type Told, useReport } from "./use-report";

const words = stepMessages.happened;

interface HappenedAnswers {
  readonly happenings: readonly (typeof HAPPENING_EVENTS)[number][];
  readonly isKnown: "" | "yes" | "no";
  readonly recordable: keyof typeof words.recordableChoices;
  readonly why: keyof typeof words.whyChoices;
}

const BLANK: HappenedAnswers = { happenings: [], isKnown: "", recordable: "", why: "" };

/** What happened to one box, and apart from it whether its growth can still be recorded. */
export function HappenedForm({ outingId, box, of }: { outingId: string; box: NamedBox; of: number }) {
  const report = useReport(outingId, `happened-${box.position}`, () => BLANK);
  const { draft, state, change, busy, problem, send } = report;
  const [fault, setFault] = useState<"what" | "label" | null>(null);
  const [isSaved, setSaved] = useState(false);
  const isLabelGone = draft.happenings.includes("label-gone");
  const isUnidentified = isLabelGone && draft.isKnown === "no";

  async function save() {
    const told = toldOf(box.id, draft);
    const missing = told.length === 0 ? "what" : isLabelGone && draft.isKnown === "" ? "label" : null;
    setFault(missing);
    setSaved(false);
    if (missing === null) setSaved(await send(told));
  }

  return (
    <details className="mb-2" open={state === "on-phone" || isSaved}>
      <summary className="min-h-[44px] cursor-pointer py-2.5 font-semibold">{words.title}</summary>
      <p className="mb-2 text-quiet">{words.lead}</p>
      <fieldset className="mb-4">
        <legend className="font-semibold">{words.what}</legend>
        {HAPPENING_EVENTS.map((kind) => (
          <CheckField
            key={kind}
            name={`happened-${box.position}`}
            label={vocabularyMessages.event[kind]}
            checked={draft.happenings.includes(kind)}
            onChange={(event) =>
              change({
                happenings: event.target.checked
                  ? [...draft.happenings, kind]
                  : draft.happenings.filter((other) => other !== kind),
              })
            }
          />
        ))}
      </fieldset>
      {isLabelGone ? (
        <ChoiceField
          name={`known-${box.position}`}
          legend={words.labelTitle}
          hint={words.labelHint(box.position, of)}
          error={fault === "label" ? words.labelMissing : undefined}
          value={draft.isKnown}
          onChange={(event) => change({ isKnown: event.target.value as "yes" | "no" })}
          options={[
            { value: "yes", label: words.labelKnown },
            { value: "no", label: words.labelUnsure },
          ]}
        />
      ) : null}
      {isUnidentified ? (
        <Notice kind="info">{words.labelUnsureNote}</Notice>
      ) : (
        <Recordable position={box.position} draft={draft} change={change} />
      )}
      <ReportMoment report={report} />
      <ReportNote report={report} />
      {fault === "what" ? <Notice kind="due">{words.whatMissing}</Notice> : null}
      <ProblemNotice problem={problem} />
      {isSaved ? <Notice kind="ok">{stepMessages.saved}</Notice> : <DraftNote state={state} />}
      <Button type="button" kind="quiet" disabled={busy} onClick={save}>
        {busy ? stepMessages.sending : words.save}
      </Button>
    </details>
  );
}

function Recordable({
  position,
  draft,
  change,
}: {
  position: number;
  draft: HappenedAnswers;
  change: (part: Partial<HappenedAnswers>) => void;
}) {
  return (
    <>
      <ChoiceField
        name={`recordable-${position}`}
        legend={words.recordable}
        value={draft.recordable}
        onChange={(event) => change({ recordable: event.target.value as HappenedAnswers["recordable"] })}
        options={Object.entries(words.recordableChoices).map(([value, label]) => ({ value, label }))}
      />
      {draft.recordable === "growth-not-recordable" ? (
        <SelectField
          name={`why-${position}`}
          label={words.why}
          value={draft.why}
          onChange={(event) => change({ why: event.target.value as HappenedAnswers["why"] })}
          options={Object.entries(words.whyChoices).map(([value, label]) => ({ value, label }))}
        />
      ) : null}
    </>
  );
}

/** One event for each answer; a box that can't be told apart says by itself that its growth can't be recorded. */
function toldOf(boxId: string, { happenings, isKnown, recordable, why }: HappenedAnswers): Told[] {
  const told = happenings.map(
    (kind): Told =>
      kind === "label-gone" ? { boxId, kind, detail: { kind, known: isKnown === "yes" } } : { boxId, kind },
  );
  const isUnidentified = happenings.includes("label-gone") && isKnown === "no";
  if (recordable === "" || isUnidentified) return told;
  return [
    ...told,
    recordable === "growth-not-recordable" && why !== ""
      ? { boxId, kind: recordable, detail: { kind: recordable, reason: why } }
      : { boxId, kind: recordable },
  ];
}
