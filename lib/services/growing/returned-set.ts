import type { HouseholdDraw } from "@/lib/data/draws";
import { setToReturn } from "./draw-basis";

/** An earlier set the household gave up, whose recipes this one receives. */
export interface ReturnedSet {
  /** The earlier set's short code. */
  readonly code: string;
  /** Boxes of the earlier set. */
  readonly boxes: number;
  /** How many of them have their recipe in this set; null before its draw. */
  readonly kept: number | null;
}

/** What came back in a drawn set of the household; null when nothing was to. */
export function returnedIn(draws: readonly HouseholdDraw[], outingId: string): ReturnedSet | null {
  const own = draws.find((draw) => draw.outingId === outingId)?.entry;
  const earlier = draws.find(({ entry }) => entry.inputs.outingId === own?.inputs.returns);
  if (!own || !earlier) return null;
  const left = own.result.map(({ arm }) => arm);
  const kept = earlier.entry.result.filter(({ arm }) => {
    const at = left.indexOf(arm);
    if (at >= 0) left.splice(at, 1);
    return at >= 0;
  });
  return { code: earlier.code, boxes: earlier.entry.result.length, kept: kept.length };
}

/** What would come back in the household's next draw. */
export function returnsNext(draws: readonly HouseholdDraw[]): ReturnedSet | null {
  const entry = setToReturn(draws);
  const earlier = draws.find((draw) => draw.entry === entry);
  return earlier ? { code: earlier.code, boxes: earlier.entry.result.length, kept: null } : null;
}
