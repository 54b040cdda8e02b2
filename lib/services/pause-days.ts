import type { TrialPause } from "@/lib/data/pauses";
import { dayOf } from "./trial-ends";

const DAY_MS = 24 * 3_600_000;

/** A time in which a trial stands still. */
export type Pause = Pick<TrialPause, "pausedAt" | "resumedAt">;

/**
 * The day on which something has to be done, where its trial may stand still: what would fall into a pause waits for
 * the day the trial goes on, as nobody is to go out in a fire. Growth doesn't wait, so that what falls behind a pause
 * stays, and while nobody knows when a pause ends so does what falls into it.
 * @param day `YYYY-MM-DD`
 * @param pauses first to last
 */
export function dayOutsidePauses(day: string, pauses: readonly Pause[]): string {
  return pauses.reduce((until, { pausedAt, resumedAt }) => {
    if (!resumedAt || until < dayOf(pausedAt) || until >= dayOf(resumedAt)) return until;
    return dayOf(resumedAt);
  }, day);
}

/** How many whole days have gone by since a day ended, those left out in which the trial stood still; below 0 before. */
export function daysLate(day: string, pauses: readonly Pause[], now: Date): number {
  const from = Date.parse(day) + DAY_MS;
  const paused = pauses.reduce((sum, { pausedAt, resumedAt }) => {
    const end = Math.min((resumedAt ?? now).getTime(), now.getTime());
    return sum + Math.max(0, end - Math.max(pausedAt.getTime(), from));
  }, 0);
  return Math.floor((now.getTime() - from - paused) / DAY_MS);
}
