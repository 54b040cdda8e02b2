import type { GrainFigures } from "@/shared/vocabulary/grain";

/**
 * Growth of bulk volume per gram of water taken up by a gram of grain, as a multiple of the raw bulk volume: median
 * of `(cooked cups per raw cup − 1) / uptake` over the USDA grains weighed raw and cooked (they run from 0.68 to 1.42).
 */
export const EXPANSION_PER_UPTAKE = 0.96;

export interface CookedBulkDensity {
  readonly gPerMl: number;
  /** A cooked cup weighed by the USDA, at the moisture of that entry; or volume expansion, an assumption. */
  readonly from: "USDA_COOKED_CUP" | "ASSUMED_EXPANSION";
}

/**
 * Grams per millilitre of cooked grain as it lies, voids included. Where the USDA has a cooked cup weight it is
 * taken as it is; elsewhere `ρ(1 + r) / (1 + 0.96 r)`, with ρ the raw bulk density and r the uptake (g/g): from 21 % too
 * light to 31 % too heavy on the grains whose cooked cup is known.
 */
export function cookedBulkDensity(figures: GrainFigures, uptakeGPerG: number): CookedBulkDensity {
  if (figures.cookedBulkDensityGPerMl !== null) {
    return { gPerMl: figures.cookedBulkDensityGPerMl, from: "USDA_COOKED_CUP" };
  }
  const r = uptakeGPerG;
  return {
    gPerMl: (figures.rawBulkDensityGPerMl * (1 + r)) / (1 + EXPANSION_PER_UPTAKE * r),
    from: "ASSUMED_EXPANSION",
  };
}
