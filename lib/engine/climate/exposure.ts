import type { WarmthClass } from "@/shared/vocabulary/exposure";
import { type DayTemperatures, degreeDays } from "./degree-days";

/**
 * Days of weather that say what a set of boxes stood in: that of set-out and those after it, always as many. The day
 * of fetching depends on the growth and ends no window. Five is the published rule's time near 20 °C (CTAHR BIO-9, 2008).
 */
export const EXPOSURE_DAYS = 5;

/** One day as a thermometer and a rain gauge saw it; rain in mm, null where it wasn't measured. */
export interface ExposureDay extends DayTemperatures {
  readonly rainMm: number | null;
}

/** What the boxes of a set stood in over the window. */
export interface Exposure {
  /** Mean over the days of (minimum + maximum)/2, °C. */
  readonly meanC: number;
  /** Above 5 °C with a cut-off at 35 °C, by the single sine; K·d. */
  readonly degreeDays: number;
  /** Null unless every day's is known. */
  readonly rainMm: number | null;
}

/** Of the days of a window, one after the other; null unless both temperatures of all `EXPOSURE_DAYS` are known. */
export function exposureOf(days: readonly (ExposureDay | null)[]): Exposure | null {
  const known = days.filter((day) => day !== null);
  if (days.length !== EXPOSURE_DAYS || known.length !== EXPOSURE_DAYS) return null;
  const sum = (of: (day: ExposureDay) => number): number => known.reduce((total, day) => total + of(day), 0);
  return {
    meanC: sum(({ minC, maxC }) => (minC + maxC) / 2) / EXPOSURE_DAYS,
    degreeDays: sum((day) => degreeDays(day)),
    rainMm: known.every(({ rainMm }) => rainMm !== null) ? sum(({ rainMm }) => rainMm!) : null,
  };
}

export function warmthClass({ degreeDays: sum }: Exposure): WarmthClass {
  if (sum < 50) return "0-50";
  return sum < 75 ? "50-75" : "75-150";
}
