import type { PoolContrast, Verdict } from "@/shared/schemas/pool-analysis";

/** A comparison of two recipes of a climate group; its figures are first − second. */
interface Comparison {
  readonly band: string;
  readonly first: string;
  readonly second: string;
  readonly difference: number | null;
  readonly lower?: number | null;
  readonly upper?: number | null;
}

/** The comparison of `first` with `second`, turned to that way round where it is stored the other; null if none. */
export function comparisonOf<One extends Comparison>(
  comparisons: readonly One[],
  band: string,
  first: string,
  second: string,
): One | null {
  const found = comparisons.find(
    (one) =>
      one.band === band &&
      ((one.first === first && one.second === second) || (one.first === second && one.second === first)),
  );
  if (!found) return null;
  return found.first === first ? found : turned(found);
}

const OTHER_WAY: Readonly<Record<Verdict, Verdict>> = {
  FIRST_SUPERIOR: "SECOND_SUPERIOR",
  SECOND_SUPERIOR: "FIRST_SUPERIOR",
  EQUIVALENT: "EQUIVALENT",
  FIRST_NON_INFERIOR: "SECOND_NON_INFERIOR",
  SECOND_NON_INFERIOR: "FIRST_NON_INFERIOR",
  UNDECIDED: "UNDECIDED",
};

/** The same comparison as second − first: everything with a direction changes sides. */
export function turned<One extends Comparison>(one: One): One {
  const { first, second, difference, lower, upper } = one;
  return {
    ...one,
    first: second,
    second: first,
    difference: minus(difference),
    ...(lower === undefined ? {} : { lower: minus(upper), upper: minus(lower) }),
    ...turnedRest(one),
  };
}

/** What only some comparisons carry beside difference and interval. */
function turnedRest(one: Comparison & Partial<PoolContrast> & { readonly shiftWithout?: number | null }) {
  const { verdict, fixedOuting, shrunken, shiftWithout } = one;
  return {
    ...(verdict ? { verdict: OTHER_WAY[verdict] } : {}),
    ...(fixedOuting ? { fixedOuting: { ...fixedOuting, difference: minus(fixedOuting.difference) } } : {}),
    ...(shrunken ? { shrunken: { ...shrunken, difference: minus(shrunken.difference) } } : {}),
    ...(shiftWithout === undefined ? {} : { shiftWithout: minus(shiftWithout) }),
  };
}

function minus(value: number | null | undefined): number | null {
  return value == null ? null : 0 - value;
}
