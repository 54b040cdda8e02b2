/** A comparison of two recipes as it stands, on the outcome's scale; `lower` and `upper` are its interval's ends. */
export interface OpenComparison {
  readonly difference: number;
  readonly lower: number;
  readonly upper: number;
}

/**
 * About how many more sets of boxes, beyond the `sets` pooled so far and like them, would settle a comparison:
 * shrink its interval until it leaves 0 outside or, where the plan has a margin, lies within ± margin.
 *
 * The half-width h shrinks with the square root of the number of sets when their growers are new ones. With the
 * difference d as now seen, h must fall to h* = |d|, or to m − |d| where that is wider, hence n((h/h*)² − 1) more.
 * As d itself is uncertain it is an order of magnitude, reached about as often as not.
 *
 * @param margin m > 0 of the plan; null where it has none
 * @returns 0 when it is settled, null when no number of sets is foreseeable (d is 0 and there is no margin)
 */
export function setsToSettle(
  { difference, lower, upper }: OpenComparison,
  sets: number,
  margin: number | null,
): number | null {
  const halfWidth = (upper - lower) / 2;
  const distance = Math.abs(difference);
  const needed = Math.max(distance, margin === null ? 0 : margin - distance);
  if (halfWidth < needed) return 0;
  if (needed === 0) return null;
  return Math.max(1, Math.ceil(sets * ((halfWidth / needed) ** 2 - 1)));
}
