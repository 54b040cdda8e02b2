import type { GrainFigures } from "@/shared/vocabulary/grain";
import type { MoisturePrediction } from "./moisture";

/** Median uptake (g water per g raw grain) over the USDA grains listed raw and cooked; they run from 1.55 to 3.09. */
export const MEDIAN_UPTAKE = 2.12;

export interface AssumedUptake {
  readonly gPerG: number;
  readonly from: "ALL_WATER_TAKEN_UP" | "UPTAKE_AS_USDA_COOKED" | "UPTAKE_AS_OTHER_GRAINS";
}

/**
 * Water the grain is taken to hold when it goes into the box, g per g of raw grain. All of the pot's water, unless
 * some is drained or stays under the steamer: then what the USDA's cooked entry holds, `(m − w0) / (1 − m)`, or the
 * median of other grains, and never more than the pot held where nothing else added water.
 */
export function assumedUptake(figures: GrainFigures, prediction: MoisturePrediction): AssumedUptake {
  const { waterMassPerGrainMass: r, moistureAtMostLoss, rawMoisture: w0, isUpperBound } = prediction;
  if (moistureAtMostLoss !== null) return { gPerG: r, from: "ALL_WATER_TAKEN_UP" };
  const cookedMoisture = figures.cookedWaterGPer100G === null ? null : figures.cookedWaterGPer100G / 100;
  const uptake = cookedMoisture === null ? MEDIAN_UPTAKE : (cookedMoisture - w0) / (1 - cookedMoisture);
  return {
    gPerG: isUpperBound ? Math.min(r, uptake) : uptake,
    from: cookedMoisture === null ? "UPTAKE_AS_OTHER_GRAINS" : "UPTAKE_AS_USDA_COOKED",
  };
}
