import { studentizedRangeCritical, studentizedRangeUpperTail } from "./studentized-range";

/** A difference of two means as a fit gives it. */
export interface Difference {
  readonly difference: number;
  /** Standard error, > 0. */
  readonly se: number;
  /** Degrees of freedom of `se`; each pair may have its own. */
  readonly df: number;
}

export interface SimultaneousDifference {
  readonly lower: number;
  readonly upper: number;
  readonly p: number;
}

/**
 * Tukey–Kramer: p and interval of one pair, simultaneous over all pairs of `groups` means at `level`:
 * P(Q > √2 |t|) and difference ± q/√2 · se. Exact for equal, independent means; conservative for unequal ones
 * (Hayter 1984, Annals of Statistics 12:61–75). About 0.1 ms, nearly all of it for the critical value.
 */
export function tukeyKramer(
  { difference, se, df }: Difference,
  groups: number,
  level: number,
): SimultaneousDifference {
  const half = (studentizedRangeCritical(1 - level, groups, df) / Math.SQRT2) * se;
  return {
    lower: difference - half,
    upper: difference + half,
    p: studentizedRangeUpperTail((Math.SQRT2 * Math.abs(difference)) / se, groups, df),
  };
}
