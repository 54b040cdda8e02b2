"use client";

import { useState } from "react";
import type { PhotoView } from "@/lib/services/growing/photos";
import { Button } from "@/lib/ui/components/button";
import { NumberField } from "@/lib/ui/components/number-field";
import { PhotoField } from "@/lib/ui/components/photo-field";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { DraftNote } from "@/lib/ui/drafts/draft-note";
import { typedNumber } from "@/lib/ui/form-numbers";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { BoxPicks, type NamedBox } from "./box-picks";
import { PinFields } from "./pin-fields";
import { ReportExtras } from "./report-extras";
import { pinToSend, type TypedPin } from "./typed-pin";
import { useReport } from "./use-report";

const words = stepMessages.setOut;

interface SetOutAnswers {
  readonly without: readonly string[];
  readonly sunk: string;
  readonly spacing: string;
  readonly pin: TypedPin | null;
}

const BLANK: SetOutAnswers = { without: [], sunk: "", spacing: "", pin: null };

const INPUTS = {
  "standing.sunkCm": "set-out-sunk",
  "standing.spacingCm": "set-out-spacing",
  "pin.latitude": "pin-latitude",
  "pin.longitude": "pin-longitude",
} as const;

interface Props {
  readonly outingId: string;
  readonly boxes: readonly NamedBox[];
  readonly minSpacingCm: number | null;
  readonly photos: readonly PhotoView[];
}

/** That boxes stand out, how, and if their owner likes where; what is typed without signal stays on the phone. */
export function SetOutPanel({ outingId, boxes, minSpacingCm, photos }: Props) {
  const report = useReport(outingId, "set-out", () => BLANK);
  const { draft, state, change, busy, problem, send } = report;
  const [isOpen, setOpen] = useState(false);
  const out = boxes.filter(({ id }) => !draft.without.includes(id));
  const errorOf = (path: keyof typeof INPUTS) => {
    const fault = problem?.fields.find((field) => field.path === path);
    return fault && fieldWords(fault.code);
  };

  function save() {
    const told = out.map(({ id }) => ({ boxId: id, kind: "set-out" as const }));
    const standing = { sunkCm: optional(draft.sunk), spacingCm: optional(draft.spacing) };
    void send(told, { standing, pin: draft.pin && pinToSend(draft.pin) });
  }

  if (!isOpen && state === "untouched") {
    return (
      <Button type="button" className="w-full" onClick={() => setOpen(true)}>
        {words.start(boxes.length)}
      </Button>
    );
  }
  return (
    <>
      <NumberField
        id={INPUTS["standing.spacingCm"]}
        name="spacing"
        inputMode="numeric"
        label={words.spacing}
        hint={minSpacingCm === null ? words.spacingHint : words.least(minSpacingCm)}
        unit={words.cm}
        error={errorOf("standing.spacingCm")}
        value={draft.spacing}
        onChange={(event) => change({ spacing: event.target.value })}
      />
      <NumberField
        id={INPUTS["standing.sunkCm"]}
        name="sunk"
        label={words.sunk}
        hint={words.sunkHint}
        unit={words.cm}
        error={errorOf("standing.sunkCm")}
        value={draft.sunk}
        onChange={(event) => change({ sunk: event.target.value })}
      />
      <PinFields value={draft.pin} onChange={(pin) => change({ pin })} problem={problem} />
      <PhotoField
        purpose="set-out"
        of={outingId}
        label={words.pictures}
        hint={words.picturesHint}
        photos={photos}
      />
      <ReportExtras title={stepMessages.fetch.more} report={report}>
        <BoxPicks boxes={boxes} without={draft.without} onChange={(without) => change({ without })} />
      </ReportExtras>
      <ProblemNotice problem={problem} inputs={INPUTS} />
      <DraftNote state={state} />
      <Button type="button" className="w-full" disabled={busy || out.length === 0} onClick={save}>
        {busy ? stepMessages.sending : words.save}
      </Button>
    </>
  );
}

/** A number left open is null; one that can't be read is refused by its schema. */
const optional = (text: string) => (text.trim() === "" ? null : typedNumber(text));
