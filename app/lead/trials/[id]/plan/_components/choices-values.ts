import { fetchDays } from "@/lib/ui/components/plan-sheet";
import { typedNumber } from "@/lib/ui/form-numbers";
import type { PlanChoices } from "@/shared/schemas/plan";

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
] as const;
export type ChoiceValues = Readonly<Record<(typeof FIELDS)[number], string>>;

/** Choices as the form's fields show them. */
export function choiceValues(choices: PlanChoices): ChoiceValues {
  const { primaryComparison: primary } = choices;
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
    sampleSize,
  };
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
