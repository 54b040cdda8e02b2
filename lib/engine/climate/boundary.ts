import type { KoppenClass } from "@/shared/vocabulary/climate";
import { decimal, koppen, type MonthlyNormals } from "./koppen";

/** The four small changes tried: every month 1 °C warmer or colder, every month 10 % more or less rain. */
export const BOUNDARY_CHANGES = [
  "WARMER_1_C",
  "COLDER_1_C",
  "WETTER_10_PERCENT",
  "DRIER_10_PERCENT",
] as const;

export type BoundaryChange = (typeof BOUNDARY_CHANGES)[number];

/** A small change that would put the place in another class, and that class. */
export interface NearBoundary {
  readonly change: BoundaryChange;
  readonly koppenClass: KoppenClass;
}

const STEPS: Readonly<Record<BoundaryChange, { readonly addC: number; readonly timesRain: number }>> = {
  WARMER_1_C: { addC: 1, timesRain: 1 },
  COLDER_1_C: { addC: -1, timesRain: 1 },
  WETTER_10_PERCENT: { addC: 0, timesRain: 1.1 },
  DRIER_10_PERCENT: { addC: 0, timesRain: 0.9 },
};

/** The changes of ±1 °C or ±10 % rain that alter the class; empty when the class is a safe one. */
export function nearBoundaries(normals: MonthlyNormals): readonly NearBoundary[] {
  const here = koppen(normals).koppenClass;
  return BOUNDARY_CHANGES.flatMap((change) => {
    const { addC, timesRain } = STEPS[change];
    const { koppenClass } = koppen({
      monthlyMeanC: normals.monthlyMeanC.map((t) => decimal(t + addC)),
      monthlyRainMm: normals.monthlyRainMm.map((mm) => decimal(mm * timesRain)),
    });
    return koppenClass === here ? [] : [{ change, koppenClass }];
  });
}
