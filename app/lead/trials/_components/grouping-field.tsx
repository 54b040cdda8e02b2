"use client";

import { useState } from "react";
import { SelectField } from "@/lib/ui/components/select-field";
import { TextAreaField } from "@/lib/ui/components/text-area-field";
import type { FormState } from "@/lib/ui/form-state";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { groupingLines } from "@/shared/schemas/trial-draft";
import { CLIMATE_PRESETS, type ClimatePreset } from "@/shared/vocabulary/climate-presets";
import { faultWords } from "./fault-words";

const words = leadMessages.make;
const PRESETS = Object.keys(CLIMATE_PRESETS) as ClimatePreset[];

/** Climate groups as lines of text; a preset fills them in and may be changed. `kept`: those of a draft stand there. */
export function GroupingField({ state, kept }: { state: FormState; kept: boolean }) {
  const [text, setText] = useState(state.values?.grouping ?? groupingLines(CLIMATE_PRESETS[PRESETS[0]!]));
  return (
    <>
      <SelectField
        name="preset"
        label={words.preset}
        options={[
          ...(kept ? [{ value: "", label: words.presetKept }] : []),
          ...PRESETS.map((value) => ({ value, label: words.presets[value] })),
        ]}
        onChange={({ target: { value } }) => {
          if (value !== "") setText(groupingLines(CLIMATE_PRESETS[value as ClimatePreset]));
        }}
      />
      <TextAreaField
        name="grouping"
        label={words.grouping}
        hint={words.groupingHint}
        error={faultWords(state, "grouping")}
        rows={6}
        className="font-mono"
        value={text}
        onChange={(event) => setText(event.target.value)}
      />
    </>
  );
}
