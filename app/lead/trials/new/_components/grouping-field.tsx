"use client";

import { useId, useState } from "react";
import { Field, INPUT_LOOK } from "@/lib/ui/components/field";
import { SelectField } from "@/lib/ui/components/select-field";
import type { FormState } from "@/lib/ui/form-state";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { groupingLines } from "@/shared/schemas/trial-draft";
import { CLIMATE_PRESETS, type ClimatePreset } from "@/shared/vocabulary/climate-presets";
import { faultWords } from "./fault-words";

const words = leadMessages.make;
const PRESETS = Object.keys(CLIMATE_PRESETS) as ClimatePreset[];

/** Climate groups as lines of text; a preset fills them in and may be changed. */
export function GroupingField({ state }: { state: FormState }) {
  const id = useId();
  const [text, setText] = useState(state.values?.grouping ?? groupingLines(CLIMATE_PRESETS[PRESETS[0]!]));
  const error = faultWords(state, "grouping");
  return (
    <>
      <SelectField
        name="preset"
        label={words.preset}
        options={PRESETS.map((value) => ({ value, label: words.presets[value] }))}
        onChange={(event) => setText(groupingLines(CLIMATE_PRESETS[event.target.value as ClimatePreset]))}
      />
      <Field id={id} label={words.grouping} hint={words.groupingHint} error={error}>
        <textarea
          id={id}
          name="grouping"
          rows={6}
          className={`${INPUT_LOOK} py-2 font-mono`}
          value={text}
          onChange={(event) => setText(event.target.value)}
          aria-invalid={error ? true : undefined}
          aria-describedby={error ? `${id}-hint ${id}-error` : `${id}-hint`}
        />
      </Field>
    </>
  );
}
