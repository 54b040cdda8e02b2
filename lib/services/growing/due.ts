import { readinessFromMean } from "@/lib/engine/climate/readiness";
import type { BoxEventKind } from "@/shared/vocabulary/box";

const DAY_MS = 24 * 3_600_000;

/** What a set of boxes waits for next. */
export type Due =
  | { readonly kind: "draw" }
  | { readonly kind: "set-out" }
  /** `earliest` and `likely` as `YYYY-MM-DD` at the place; null where its climate gives no guide. */
  | { readonly kind: "fetch"; readonly earliest: string | null; readonly likely: string | null }
  /** By the plan's fetch rule, `YYYY-MM-DD` at the place, however the boxes look. */
  | { readonly kind: "fetch-on"; readonly day: string }
  | { readonly kind: "record"; readonly positions: readonly number[] }
  | { readonly kind: "done" }
  | { readonly kind: "given-up" };

export interface BoxStanding {
  readonly position: number;
  readonly graded: boolean;
  /** Events that stand. */
  readonly events: readonly {
    readonly kind: BoxEventKind;
    readonly occurredAt: Date;
    readonly offsetMinutes: number;
  }[];
}

/** Whether there is nothing left to record of a box: it has a grade, or it was said that there can be none. */
export function isRecorded({ graded, events }: BoxStanding): boolean {
  return graded || events.some((event) => event.kind === "growth-not-recordable");
}

/** The next step of a set: the earliest one that a box not yet recorded waits for. */
export function dueOf(set: {
  readonly status: string;
  readonly boxes: readonly BoxStanding[];
  readonly monthlyMeanC: readonly number[] | null;
  /** Days from set-out to the fetch where the plan fixes them; null where growth decides. */
  readonly fetchAfterDays: number | null;
}): Due {
  if (set.status === "abandoned") return { kind: "given-up" };
  if (set.status === "planned") return { kind: "draw" };
  const open = set.boxes.filter((box) => !isRecorded(box));
  if (open.length === 0) return { kind: "done" };
  const has = (box: BoxStanding, ...kinds: BoxEventKind[]) =>
    box.events.some(({ kind }) => kinds.includes(kind));
  const back = open.filter((box) => has(box, "fetched", "opened"));
  if (back.length > 0) return { kind: "record", positions: back.map(({ position }) => position) };
  const setOut = open.flatMap((box) => box.events.filter(({ kind }) => kind === "set-out"));
  const [first] = setOut.sort((a, b) => a.occurredAt.getTime() - b.occurredAt.getTime());
  if (!first) return { kind: "set-out" };
  return set.fetchAfterDays === null
    ? { kind: "fetch", ...fetchDays(first, set.monthlyMeanC) }
    : { kind: "fetch-on", day: dayAfter(atPlace(first), set.fetchAfterDays) };
}

type SetOut = BoxStanding["events"][number];

/** The moment as the clocks at the place have it, in the UTC fields of a date. */
function atPlace({ occurredAt, offsetMinutes }: SetOut): Date {
  return new Date(occurredAt.getTime() + offsetMinutes * 60_000);
}

function dayAfter(moment: Date, days: number): string {
  return new Date(moment.getTime() + days * DAY_MS).toISOString().slice(0, 10);
}

/** Days from set-out by the published readiness rule, as if every day had the mean of the month of set-out. */
function fetchDays(
  setOut: SetOut,
  monthlyMeanC: readonly number[] | null,
): { readonly earliest: string | null; readonly likely: string | null } {
  const moment = atPlace(setOut);
  const ready = readinessIn(moment.getUTCMonth(), monthlyMeanC);
  return ready
    ? { earliest: dayAfter(moment, ready.earliestDay), likely: dayAfter(moment, ready.likelyDay) }
    : { earliest: null, likely: null };
}

/** Days to a box likely ready in a month (0 January … 11) at a place with these monthly means; null where unknown or too cold. */
export function readinessIn(
  month: number,
  monthlyMeanC: readonly number[] | null,
): { readonly meanC: number; readonly earliestDay: number; readonly likelyDay: number } | null {
  const meanC = monthlyMeanC?.[month];
  if (meanC === undefined) return null;
  const ready = readinessFromMean(meanC);
  return ready.ok ? { meanC, earliestDay: ready.earliestDay, likelyDay: ready.likelyDay } : null;
}
