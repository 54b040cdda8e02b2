import { readinessFromMean } from "@/lib/engine/climate/readiness";
import { dayOutsidePauses, type Pause } from "@/lib/services/pause-days";
import type { BoxEventKind } from "@/shared/vocabulary/box";
import { isStage } from "./stage-order";

const DAY_MS = 24 * 3_600_000;

/** What a set of boxes waits for next, with the positions of the boxes it is about. */
export type Due =
  | { readonly kind: "draw" }
  | { readonly kind: "cook" | "set-out" | "record"; readonly positions: readonly number[] }
  /** `earliest` and `likely` as `YYYY-MM-DD` at the place; null where its climate gives no guide. */
  | {
      readonly kind: "fetch";
      readonly earliest: string | null;
      readonly likely: string | null;
      readonly positions: readonly number[];
    }
  /** By the plan's fetch rule, `YYYY-MM-DD` at the place, however the boxes look, once its trial doesn't stand still. */
  | { readonly kind: "fetch-on"; readonly day: string; readonly positions: readonly number[] }
  | { readonly kind: "done" }
  | { readonly kind: "given-up" };

export interface BoxStanding {
  readonly position: number;
  readonly graded: boolean;
  /** Events that stand, in the order they were told. */
  readonly events: readonly {
    readonly kind: BoxEventKind;
    readonly occurredAt: Date;
    readonly offsetMinutes: number;
  }[];
}

/** Whether there is nothing left to record of a box: it has a grade, or it was said last that there can be none. */
export function isRecorded({ graded, events }: Pick<BoxStanding, "graded" | "events">): boolean {
  const last = events.findLast(({ kind }) => kind.startsWith("growth-"));
  return graded || last?.kind === "growth-not-recordable";
}

/** Whether a box has stood outside: as it was told, or as follows from what was told or recorded of it later. */
export function hasStoodOut({ graded, events }: Pick<BoxStanding, "graded" | "events">): boolean {
  return graded || events.some(({ kind }) => isStage(kind));
}

/** How far a box has come on its way. */
export type BoxStep = "cook" | "set-out" | "fetch" | "record" | "none";

/** What a drawn box waits for; a step that was never told doesn't hold up those after it. */
export function stepOf(box: Pick<BoxStanding, "graded" | "events">): BoxStep {
  if (isRecorded(box)) return "none";
  const has = (...kinds: BoxEventKind[]) => box.events.some(({ kind }) => kinds.includes(kind));
  if (has("fetched", "opened")) return "record";
  if (has("set-out")) return "fetch";
  return has("cooked-as-drawn", "cooked-otherwise") ? "set-out" : "cook";
}

/**
 * The next step of a set: what its furthest boxes wait for, as grain that is back spoils first. Boxes that stay out
 * longer than others wait for nothing but their own fetching.
 */
export function dueOf(set: {
  readonly status: string;
  readonly boxes: readonly BoxStanding[];
  readonly monthlyMeanC: readonly number[] | null;
  /** Days from set-out to the fetch where the plan fixes them; null where growth decides. */
  readonly fetchAfterDays: number | null;
  /** Of its trial, first to last. */
  readonly pauses: readonly Pause[];
}): Due {
  if (set.status === "abandoned") return { kind: "given-up" };
  if (set.status === "planned") return { kind: "draw" };
  const waitingFor = (step: BoxStep) => set.boxes.filter((box) => stepOf(box) === step);
  const step = (["record", "fetch", "set-out", "cook"] as const).find((at) => waitingFor(at).length > 0);
  if (!step) return { kind: "done" };
  const waiting = waitingFor(step);
  const positions = waiting.map(({ position }) => position);
  if (step !== "fetch") return { kind: step, positions };
  const setOut = waiting.flatMap((box) => box.events.filter(({ kind }) => kind === "set-out"));
  const first = setOut.reduce((a, b) => (b.occurredAt < a.occurredAt ? b : a));
  const onDay = (day: string) => dayOutsidePauses(day, set.pauses);
  if (set.fetchAfterDays !== null) {
    return { kind: "fetch-on", day: onDay(dayAfter(atPlace(first), set.fetchAfterDays)), positions };
  }
  const { earliest, likely } = fetchDays(first, set.monthlyMeanC);
  return { kind: "fetch", earliest: earliest && onDay(earliest), likely: likely && onDay(likely), positions };
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
