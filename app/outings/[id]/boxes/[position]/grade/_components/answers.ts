import type { Fact } from "@/lib/ui/components/facts";
import { growthMessages } from "@/lib/ui/messages/en/growth";
import { openedMessages } from "@/lib/ui/messages/en/opened-box";
import type { GradeMeasures } from "@/shared/schemas/grade";
import { type Measure, OFF_COLOURS } from "@/shared/vocabulary/growth";
import type { Step } from "./draft";

const words = openedMessages;

export interface Answer extends Fact {
  readonly value: string;
  /** Where it is asked. */
  readonly step: Step;
}

/** What was answered, in words, question by question; what was left open says so. */
export function answersOf(measures: GradeMeasures): readonly Answer[] {
  const { coverClass, coverPercent, offColourPercent: colours } = measures;
  return [
    {
      step: "warmth",
      label: words.warmth,
      value: inWords(measures.warmth, named(growthMessages.warmth)),
    },
    { step: "cover", label: words.cover, value: coverWords(coverPercent, coverClass) },
    { step: "colours", label: words.colours, value: colourWords(colours) },
    { step: "depth", label: words.depth, value: inWords(measures.depth, named(growthMessages.depth)) },
    {
      step: "wetness",
      label: words.wetness,
      value: inWords(measures.wetness, named(growthMessages.wetness)),
    },
    { step: "weights", label: words.total, value: inWords(measures.totalMassG, words.gramsOf) },
    { step: "weights", label: words.usable, value: inWords(measures.usableMassG, words.gramsOf) },
  ];
}

const named =
  <Value extends string>(names: Readonly<Record<Value, string>>) =>
  (value: Value) =>
    names[value];

function inWords<Value>(measure: Measure<Value>, say: (value: Value) => string): string {
  if (measure === null) return words.unanswered;
  return typeof measure === "string" ? growthMessages.unmeasured[measure] : say(measure.value);
}

function coverWords(percent: GradeMeasures["coverPercent"], picked: GradeMeasures["coverClass"]): string {
  if (typeof percent === "object" && percent !== null) return words.percentOf(percent.value);
  return inWords(picked ?? percent, (value) => {
    const { name, range } = growthMessages.growth[value as 0];
    return `${name} (${range})`;
  });
}

function colourWords(colours: GradeMeasures["offColourPercent"]): string {
  const measures = OFF_COLOURS.map((colour) => colours[colour]);
  if (measures.every((measure) => typeof measure === "object" && measure?.value === 0)) return words.noOther;
  const [first] = measures;
  if (measures.every((measure) => measure === first)) return inWords(first ?? null, words.percentOf);
  return OFF_COLOURS.map(
    (colour) =>
      `${growthMessages.offColour[colour]}: ${inWords(colours[colour], words.percentOf).toLowerCase()}`,
  ).join("; ");
}
