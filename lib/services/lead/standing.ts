import type { DeskHousehold, DeskSet } from "@/lib/data/lead-desk";
import { readinessFromMean } from "@/lib/engine/climate/readiness";
import { dayOutsidePauses, daysLate, type Pause } from "@/lib/services/pause-days";
import type { PeopleGroup } from "@/shared/vocabulary/desk";

const DAY_MS = 24 * 3_600_000;

/** A set is called overdue once so many days have gone by since its day to be fetched; days of a pause don't count. */
export const OVERDUE_AFTER_DAYS = 2;

/** The same where neither the plan nor the climate of the place names a day. Common practice, no source. */
const NO_GUIDE_DAYS = 14;

/** What of a trial decides when its sets are due. */
export interface DueBy {
  /** Days from set-out to the fetch where the plan names one number for all sets. */
  readonly planDays: number | null;
  /** First to last. */
  readonly pauses: readonly Pause[];
}

/** The day a set's waiting boxes should be fetched, `YYYY-MM-DD` at the place; null while none waits. */
export function fetchDueOn(set: DeskSet, { planDays, pauses }: DueBy): string | null {
  if (set.status !== "drawn" || set.waiting === 0 || !set.outSince) return null;
  const days = set.fetchAfterDays ?? planDays ?? readyDays(set.monthMeanC) ?? NO_GUIDE_DAYS;
  const day = new Date(set.outSince.getTime() + days * DAY_MS).toISOString().slice(0, 10);
  return dayOutsidePauses(day, pauses);
}

function readyDays(meanC: number | null): number | null {
  const ready = meanC === null ? null : readinessFromMean(meanC);
  return ready?.ok ? ready.likelyDay : null;
}

/** Whether it should have been fetched by now, a few days' grace allowed for. */
export function isOverdue(set: DeskSet, by: DueBy, now: Date): boolean {
  const due = fetchDueOn(set, by);
  return due !== null && daysLate(due, by.pauses, now) >= OVERDUE_AFTER_DAYS;
}

/** The groups a household is in, by its sets. Who gave up their seat or their account is asked for nothing: none. */
export function groupsOf(
  household: DeskHousehold,
  sets: readonly DeskSet[],
  by: DueBy,
  now: Date,
): PeopleGroup[] {
  if (!household.isHere) return [];
  const drawn = sets.filter(({ status }) => status === "drawn");
  const isIn: Record<PeopleGroup, boolean> = {
    "no-place": !household.hasPlace && sets.length === 0,
    "not-set-out":
      (household.hasPlace || sets.length > 0) && sets.every(({ setOut, settled }) => setOut + settled === 0),
    "drawn-only": drawn.some(({ setOut, settled }) => setOut + settled === 0),
    overdue: sets.some((set) => isOverdue(set, by, now)),
    unrecorded: drawn.some(({ unrecorded }) => unrecorded > 0),
    "gave-up": sets.some(({ status }) => status === "abandoned"),
  };
  return (Object.keys(isIn) as PeopleGroup[]).filter((group) => isIn[group]);
}
