import type { LeadTrialRow } from "@/lib/services/lead/read";
import { groupingLines, parseGroupingLines } from "@/shared/schemas/trial-draft";

const NEW_REGION = ["name", "south", "west", "north", "east", "capacity"] as const;
const SEATS = "seats.";

/** What was typed, by the fields' names. */
export function typedValues(form: FormData): Record<string, string> {
  return Object.fromEntries([...form].filter(([, value]) => typeof value === "string") as [string, string][]);
}

/** The form's fields as the draft's schema has them; what was left empty is left out. */
export function draftOf(values: Readonly<Record<string, string>>) {
  const region = Object.fromEntries(NEW_REGION.map((field) => [field, values[`region.${field}`] ?? ""]));
  const isEmpty = NEW_REGION.every((field) => region[field]?.trim() === "");
  return {
    title: values.title,
    question: values.question,
    boxesMin: values.boxesMin,
    boxesMax: values.boxesMax,
    endsOn: values.endsOn,
    grouping: parseGroupingLines(values.grouping ?? ""),
    regions: Object.entries(values)
      .filter(([name, seats]) => name.startsWith(SEATS) && seats.trim() !== "")
      .map(([name, capacity]) => ({ regionId: name.slice(SEATS.length), capacity })),
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
