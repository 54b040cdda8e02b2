/** A line on which differences are drawn, with 0 in view. */
export interface DifferenceScale {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
  /** Where a difference lies, 0 at the left end to 1 at the right; beyond the ends it stays at the end. */
  readonly at: (difference: number) => number;
}

const STEPS = [0.1, 0.2, 0.25, 0.5, 1, 2, 5, 10] as const;
const TICKS_AT_MOST = 7;

/** Wide enough for all of `values` and 0, between round ticks. */
export function differenceScale(values: readonly number[]): DifferenceScale {
  const least = Math.min(0, ...values);
  const most = Math.max(0, ...values);
  const step = STEPS.find((size) => (most - least) / size <= TICKS_AT_MOST - 2) ?? (most - least) / 4;
  const first = Math.floor(least / step);
  const last = Math.max(Math.ceil(most / step), first + 1);
  const low = first * step;
  const high = last * step;
  return {
    low,
    high,
    ticks: Array.from({ length: last - first + 1 }, (_, tick) => (first + tick) * step),
    at: (difference) => (Math.min(high, Math.max(low, difference)) - low) / (high - low),
  };
}
