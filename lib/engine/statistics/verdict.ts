import type { Verdict } from "@/shared/schemas/pool-analysis";

/**
 * What an interval for first − second says, larger being better, by the margin m > 0 (null where the plan has none;
 * then only superiority is judged). The first that holds:
 *
 * | verdict             | lower | upper |
 * |---------------------|-------|-------|
 * | FIRST_SUPERIOR      | > 0   |       |
 * | SECOND_SUPERIOR     |       | < 0   |
 * | EQUIVALENT          | > −m  | < m   |
 * | FIRST_NON_INFERIOR  | > −m  |       |
 * | SECOND_NON_INFERIOR |       | < m   |
 * | UNDECIDED           |       |       |
 *
 * An end that lies exactly on a bound decides nothing. Taken from simultaneous intervals, the chance that any verdict
 * of the family is false is at most 1 − level, as all hold whenever all intervals cover. A superiority smaller than
 * m is still called superiority; the interval beside it shows how small.
 */
export function verdictOf(lower: number, upper: number, margin: number | null): Verdict {
  if (!(lower <= upper))
    throw new RangeError(`An interval's lower end is not above its upper: ${lower}, ${upper}.`);
  if (margin !== null && !(margin > 0)) throw new RangeError(`A margin is above 0; got ${margin}.`);
  if (lower > 0) return "FIRST_SUPERIOR";
  if (upper < 0) return "SECOND_SUPERIOR";
  if (margin === null) return "UNDECIDED";
  if (lower > -margin) return upper < margin ? "EQUIVALENT" : "FIRST_NON_INFERIOR";
  return upper < margin ? "SECOND_NON_INFERIOR" : "UNDECIDED";
}
