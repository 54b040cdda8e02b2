import { BOX_DEGREE_DAYS, degreeDays } from "./degree-days";

/**
 * Degree-days above 5 °C from set-out to a box worth opening. The published rule, 4–5 days near 20 °C and 3–4
 * above (University of Hawaiʻi CTAHR, BIO-9, 2008), is about 65; 60 is its early end: 4 days at 20 °C, 3 at 25 °C.
 */
export const READINESS_DEGREE_DAYS = { earliest: 60, likely: 65 } as const;

/** Days are counted from set-out: day 1 ends 24 h after it. */
export interface Readiness {
  readonly ok: true;
  readonly earliestDay: number;
  readonly likelyDay: number;
}

export interface TooCold {
  readonly ok: false;
  readonly reason: "TOO_COLD";
}

/** When a box is likely ready if every day has this mean temperature (°C); TOO_COLD at 5 °C and below. */
export function readinessFromMean(meanC: number): Readiness | TooCold {
  const perDay = degreeDays({ minC: meanC, maxC: meanC }, BOX_DEGREE_DAYS);
  if (perDay === 0) return { ok: false, reason: "TOO_COLD" };
  return {
    ok: true,
    earliestDay: Math.ceil(READINESS_DEGREE_DAYS.earliest / perDay),
    likelyDay: Math.ceil(READINESS_DEGREE_DAYS.likely / perDay),
  };
}
