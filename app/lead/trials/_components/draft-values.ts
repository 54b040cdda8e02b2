import type { LeadTrialRow } from "@/lib/services/lead/read";
import { typedNumber } from "@/lib/ui/form-numbers";
import type { FormState } from "@/lib/ui/form-state";
import { groupingLines, parseGroupingLines } from "@/shared/schemas/trial-draft";

const NEW_REGION = ["name", "south", "west", "north", "east", "capacity"] as const;
const SEATS = "seats.";

/** What was typed, by the fields' names. */
export function typedValues(form: FormData): Record<string, string> {
  return Object.fromEntries([...form].filter(([, value]) => typeof value === "string") as [string, string][]);
}

/**
 * The form's fields as the draft's schema has them; what was left empty is left out, and an empty number of a region
 * that is described is NaN.
 */
export function draftOf(values: Readonly<Record<string, string>>) {
  const typed = (field: string) => values[`region.${field}`] ?? "";
  const isEmpty = NEW_REGION.every((field) => typed(field).trim() === "");
  const [name, ...numbers] = NEW_REGION;
  const region = {
    name: typed(name),
    ...Object.fromEntries(numbers.map((field) => [field, typedNumber(typed(field))])),
  };
  return {
    title: values.title,
    question: values.question,
    boxesMin: typedNumber(values.boxesMin ?? ""),
    boxesMax: typedNumber(values.boxesMax ?? ""),
    endsOn: values.endsOn,
    grouping: parseGroupingLines(values.grouping ?? ""),
    regions: Object.entries(values)
      .filter(([field, seats]) => field.startsWith(SEATS) && seats.trim() !== "")
      .map(([field, seats]) => ({ regionId: field.slice(SEATS.length), capacity: typedNumber(seats) })),
    newRegion: isEmpty ? null : region,
  };
}

/** Where a draft made of these values has the seats of a region; null where none were typed. */
export function seatsPath(values: Readonly<Record<string, string>>, regionId: string): string | null {
  const at = draftOf(values).regions.findIndex((region) => region.regionId === regionId);
  return at < 0 ? null : `regions.${at}.capacity`;
}

/** A draft as the form's fields show it. */
export function valuesOf(trial: LeadTrialRow): Record<string, string> {
  return {
    title: trial.title,
    question: trial.question,
    boxesMin: String(trial.boxesMin),
    boxesMax: String(trial.boxesMax),
    endsOn: trial.endsOn,
    grouping: groupingLines(trial.grouping),
    ...Object.fromEntries(
      trial.regions.map(({ regionId, capacity }) => [`${SEATS}${regionId}`, String(capacity)]),
    ),
  };
}

/** Why what was typed was not kept: told at its field where it has one. */
export function refusal(reason: string, values: Readonly<Record<string, string>>): FormState {
  return reason === "ENDS_IN_PAST"
    ? { error: "INVALID", fields: { endsOn: "endsOn.past" }, values }
    : { error: reason, values };
}
