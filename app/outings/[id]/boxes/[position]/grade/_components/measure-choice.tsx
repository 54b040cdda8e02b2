import type { ReactNode } from "react";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { growthMessages } from "@/lib/ui/messages/en/growth";
import { recordingMessages } from "@/lib/ui/messages/en/recording";
import { UNMEASURED } from "@/shared/vocabulary/growth";
import type { GradeDraft } from "./draft";
import type { NumberField } from "./faults";

export interface StepProps {
  readonly draft: GradeDraft;
  readonly change: (part: Partial<GradeDraft>) => void;
  /** What is wrong with a number, in words. */
  readonly errorOf: (field: NumberField) => string | undefined;
}

/** Why there is no answer, below the answers. */
export const unmeasuredOptions = UNMEASURED.map((value, i) => ({
  value,
  label: growthMessages.unmeasured[value],
  startsRow: i === 0,
}));

interface ChoiceProps<Value extends string> {
  readonly name: "warmth" | "depth" | "wetness";
  readonly list: readonly Value[];
  readonly names: Readonly<Record<Value, string>>;
  readonly picture?: (value: Value) => ReactNode;
}

/** One of a list, or why not; the step's question is its legend. */
export function MeasureChoice<Value extends string>(props: StepProps & ChoiceProps<Value>) {
  const { draft, change, name, list, names, picture } = props;
  return (
    <ChoiceField
      name={name}
      legend={<span className="sr-only">{recordingMessages.record.question[name]}</span>}
      value={draft[name]}
      onChange={(event) => change({ [name]: event.target.value })}
      options={[
        ...list.map((value) => ({ value, label: names[value], picture: picture?.(value) })),
        ...unmeasuredOptions,
      ]}
    />
  );
}
