import type { OutingView } from "./outing-view";

const DAY_MS = 24 * 3_600_000;

/** The days of a set that belong in a calendar, `YYYY-MM-DD` at the place; null where a step is over or not known. */
export interface SetDates {
  readonly setOut: string | null;
  readonly fetch: {
    readonly from: string;
    readonly to: string;
    /** By the trial's plan, however the boxes look; else a guide. */
    readonly isFixed: boolean;
  } | null;
}

/** When a set is to be set out and fetched: from what happened where it is out, else from the day it is planned for. */
export function datesOf(outing: Pick<OutingView, "due" | "day" | "fetchDay" | "readiness">): SetDates {
  const { due, day, fetchDay, readiness } = outing;
  if (due.kind === "fetch-on") return { setOut: null, fetch: { from: due.day, to: due.day, isFixed: true } };
  if (due.kind === "fetch") {
    const { earliest, likely } = due;
    return {
      setOut: null,
      fetch: earliest && likely ? { from: earliest, to: likely, isFixed: false } : null,
    };
  }
  if (due.kind === "record" || due.kind === "done" || due.kind === "given-up")
    return { setOut: null, fetch: null };
  const after = (days: number) => new Date(Date.parse(day) + days * DAY_MS).toISOString().slice(0, 10);
  if (fetchDay) {
    const fixed = after(fetchDay.afterDays);
    return { setOut: day, fetch: { from: fixed, to: fixed, isFixed: true } };
  }
  if (!readiness) return { setOut: day, fetch: null };
  const { earliestDay, likelyDay } = readiness;
  return { setOut: day, fetch: { from: after(earliestDay), to: after(likelyDay), isFixed: false } };
}
