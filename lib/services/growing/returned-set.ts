import type { HouseholdDraw } from "@/lib/data/draws";
import { earlierDraws, setToReturn } from "./draw-basis";

/** An earlier set the household gave up, whose recipes this one receives. */
export interface ReturnedSet {
  /** The earlier set's short code. */
  readonly code: string;
  /** Recipes that are to come back, box by box; more than the earlier set had boxes where it didn't get all of its own. */
  readonly owed: number;
  /** How many of them are in this set; null before its draw. */
  readonly kept: number | null;
}

/** What came back in a drawn set of the household; null when nothing was to. */
export function returnedIn(
  draws: readonly HouseholdDraw[],
  armCodes: readonly string[],
  outingId: string,
): ReturnedSet | null {
  const own = draws.find((draw) => draw.outingId === outingId)?.entry;
  const earlier = draws.find(({ entry }) => entry.inputs.outingId === own?.inputs.returns);
  if (!own || !earlier) return null;
  const owed = owedAfter(draws, armCodes, earlier);
  const left = own.result.map(({ arm }) => arm);
  const kept = owed.filter((arm) => {
    const at = left.indexOf(arm);
    if (at >= 0) left.splice(at, 1);
    return at >= 0;
  });
  return { code: earlier.code, owed: owed.length, kept: kept.length };
}

/** What would come back in the household's next draw. */
export function returnsNext(
  draws: readonly HouseholdDraw[],
  armCodes: readonly string[],
): ReturnedSet | null {
  const entry = setToReturn(draws);
  const earlier = draws.find((draw) => draw.entry === entry);
  return earlier
    ? { code: earlier.code, owed: owedAfter(draws, armCodes, earlier).length, kept: null }
    : null;
}

function owedAfter(
  draws: readonly HouseholdDraw[],
  armCodes: readonly string[],
  { entry }: HouseholdDraw,
): string[] {
  return earlierDraws(draws, armCodes)
    .owedAfter(entry.inputs.outingId)
    .map(({ arm }) => arm);
}
