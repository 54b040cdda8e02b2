"use client";

import { useId } from "react";
import { INPUT_LOOK } from "@/lib/ui/components/field";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { UNMEASURED, type Unmeasured } from "@/shared/vocabulary/growth";
import type { TypedMeasure } from "./draft";

interface Props {
  readonly label: string;
  readonly unit: string;
  readonly value: TypedMeasure;
  readonly onChange: (value: TypedMeasure) => void;
}

/** A number, or why there is none; neither is preset and neither is needed. */
export function MeasureField({ label, unit, value, onChange }: Props) {
  const id = useId();
  return (
    <fieldset className="mb-5 max-w-[38em]">
      <legend className="mb-1 font-semibold first-letter:uppercase">{label}</legend>
      <div className="flex flex-wrap items-center gap-2.5">
        <input
          id={id}
          type="number"
          inputMode="decimal"
          step="any"
          min={0}
          className={`${INPUT_LOOK} max-w-[7em] text-[1.375rem] font-semibold tabular-nums`}
          aria-label={`${label}, ${unit}`}
          value={value.text}
          onChange={(event) => onChange({ text: event.target.value, why: "" })}
        />
        <span aria-hidden="true">{unit}</span>
        <select
          className={`${INPUT_LOOK} max-w-[11em]`}
          aria-label={`${label}: ${growingMessages.grade.unanswered}`}
          value={value.why}
          onChange={(event) => onChange({ text: "", why: event.target.value as Unmeasured | "" })}
        >
          <option value="">{growingMessages.grade.unanswered}</option>
          {UNMEASURED.map((why) => (
            <option key={why} value={why}>
              {vocabularyMessages.unmeasured[why]}
            </option>
          ))}
        </select>
      </div>
    </fieldset>
  );
}
