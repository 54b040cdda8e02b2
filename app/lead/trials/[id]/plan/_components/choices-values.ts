import { fetchDays } from "@/lib/ui/components/plan-sheet";
import { typedNumber } from "@/lib/ui/form-numbers";
import type { PlanChoices } from "@/shared/schemas/plan";
import { MAX_GRAIN_DEPTH_CM, MIN_GRAIN_DEPTH_CM } from "@/shared/vocabulary/box";

/** The form's fields, each named by its place in the choices. */
export const FIELDS = [
  "primaryComparison.kind",
  "primaryComparison.arm",
  "margin",
  "looks.count",
  "minimum.boxesPerCell",
  "minimum.growersPerCell",
  "endsAtBoxes",
  "earlyCloseRule",
  "fetchRule.kind",
  "fetchRule.afterDays",
  "meetAgainShare",
  "boxLimits.kinds",
  "boxLimits.grainDepthCm.min",
  "boxLimits.grainDepthCm.max",
  "boxLimits.minSpacingCm",
] as const;
export type ChoiceValues = Readonly<Record<(typeof FIELDS)[number], string>>;

/** Choices as the form's fields show them. */
export function choiceValues(choices: PlanChoices): ChoiceValues {
  const { primaryComparison: primary, boxLimits: limits } = choices;
  return {
    "primaryComparison.kind": primary.kind,
    "primaryComparison.arm": primary.kind === "against-reference" ? primary.arm : "",
    margin: String(choices.margin),
    "looks.count": String(choices.looks.count),
    "minimum.boxesPerCell": String(choices.minimum.boxesPerCell),
    "minimum.growersPerCell": String(choices.minimum.growersPerCell),
    endsAtBoxes: choices.endsAtBoxes === null ? "" : String(choices.endsAtBoxes),
    earlyCloseRule: choices.earlyCloseRule,
    "fetchRule.kind": choices.fetchRule.kind,
    "fetchRule.afterDays": fetchDays(choices.fetchRule).join(" "),
    meetAgainShare: String(Math.round(choices.meetAgainShare * 1000) / 10),
    "boxLimits.kinds": limits?.kinds?.join(" ") ?? "",
    "boxLimits.grainDepthCm.min": String(limits?.grainDepthCm.min ?? ""),
    "boxLimits.grainDepthCm.max": String(limits?.grainDepthCm.max ?? ""),
    "boxLimits.minSpacingCm": String(limits?.minSpacingCm ?? ""),
  };
}

/** What was typed, in the shape of the choices, for their schema to judge; an empty number is NaN. */
export function typedChoices(values: ChoiceValues, sampleSize: PlanChoices["sampleSize"]): unknown {
  const primary = values["primaryComparison.kind"];
  const ends = values.endsAtBoxes.trim();
  return {
    minimum: {
      boxesPerCell: typedNumber(values["minimum.boxesPerCell"]),
      growersPerCell: typedNumber(values["minimum.growersPerCell"]),
    },
    primaryComparison:
      primary === "against-reference"
        ? { kind: primary, arm: values["primaryComparison.arm"] }
        : { kind: primary },
    margin: typedNumber(values.margin),
    looks: { count: typedNumber(values["looks.count"]), spending: "obrien-fleming-type" },
    endsAtBoxes: ends === "" ? null : typedNumber(ends),
    earlyCloseRule: values.earlyCloseRule,
    fetchRule: fetchRule(values),
    meetAgainShare: typedNumber(values.meetAgainShare) / 100,
    ...boxLimits(values),
    sampleSize,
  };
}

/** What a number field holds, or what stands for it where it is empty. */
const typedOr = <Empty>(text: string, empty: Empty) => (text.trim() === "" ? empty : typedNumber(text));

/** No limits at all where every field is empty. */
function boxLimits(values: ChoiceValues): { boxLimits?: unknown } {
  const kinds = values["boxLimits.kinds"].split(" ").filter(Boolean);
  const limits = {
    kinds: kinds.length > 0 ? kinds : null,
    grainDepthCm: {
      min: typedOr(values["boxLimits.grainDepthCm.min"], MIN_GRAIN_DEPTH_CM),
      max: typedOr(values["boxLimits.grainDepthCm.max"], MAX_GRAIN_DEPTH_CM),
    },
    minSpacingCm: typedOr(values["boxLimits.minSpacingCm"], null),
  };
  const isSet = FIELDS.some((field) => field.startsWith("boxLimits.") && values[field].trim() !== "");
  return isSet ? { boxLimits: limits } : {};
}

function fetchRule(values: ChoiceValues): unknown {
  const kind = values["fetchRule.kind"];
  const days = values["fetchRule.afterDays"]
    .split(/[\s,;]+/)
    .filter(Boolean)
    .map(Number);
  if (kind === "same-day") return { kind, afterDays: days.length === 1 ? days[0] : Number.NaN };
  return kind === "staged" ? { kind, afterDays: days } : { kind };
}
