/** A day's lowest and highest air temperature, °C. */
export interface DayTemperatures {
  readonly minC: number;
  readonly maxC: number;
}

/** Growth counts above `baseC` and stops rising at `upperC` (horizontal cut-off; null for none). */
export interface DegreeDayLimits {
  readonly baseC: number;
  readonly upperC: number | null;
}

export const BOX_DEGREE_DAYS: DegreeDayLimits = { baseC: 5, upperC: 35 };

/**
 * Degree-days (K·d) of one day by the single sine of Baskerville & Emin (1969, Ecology 50:514–517): the day's
 * course is one sine between its minimum and maximum, and what lies above the base is integrated. A horizontal
 * upper cut-off takes off what lies above it.
 * @throws RangeError for a minimum above the maximum, numbers not finite, or an upper limit not above the base.
 */
export function degreeDays(day: DayTemperatures, limits: DegreeDayLimits = BOX_DEGREE_DAYS): number {
  const { minC, maxC } = day;
  const { baseC, upperC } = limits;
  if (!(Number.isFinite(minC) && Number.isFinite(maxC) && minC <= maxC)) {
    throw new RangeError("A day's temperatures are two finite numbers, the minimum not above the maximum.");
  }
  if (upperC !== null && !(upperC > baseC)) {
    throw new RangeError("The upper limit of degree-days lies above the base: exchange or correct them.");
  }
  return sineAbove(day, baseC) - (upperC === null ? 0 : sineAbove(day, upperC));
}

function sineAbove({ minC, maxC }: DayTemperatures, thresholdC: number): number {
  const mean = (minC + maxC) / 2;
  if (minC >= thresholdC) return mean - thresholdC;
  if (maxC <= thresholdC) return 0;
  const amplitude = (maxC - minC) / 2;
  const theta = Math.asin((thresholdC - mean) / amplitude);
  return ((mean - thresholdC) * (Math.PI / 2 - theta) + amplitude * Math.cos(theta)) / Math.PI;
}
