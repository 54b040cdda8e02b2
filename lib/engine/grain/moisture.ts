import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { GrainFigures } from "@/shared/vocabulary/grain";
import { WATER_DENSITY_G_PER_ML } from "@/shared/vocabulary/units";

/** Largest share of the pot's water taken to boil away or cling to the pot. Common practice, no source. */
export const MAX_WATER_LOSS_SHARE = 0.3;

/** What was taken for granted in a prediction. */
export type MoistureAssumption =
  /** The nominal figure is for no water lost. */
  | "NO_WATER_LOST"
  /** Cups were turned into grams by the cup weight of the USDA entry. */
  | "USDA_BULK_DENSITY"
  /** The raw grain is as dry as the USDA entry. */
  | "USDA_RAW_MOISTURE";

/** What the recipe does not say and the prediction therefore leaves out. */
export type MoistureUnknown =
  /** Water poured off after boiling. */
  | "DRAINED_WATER"
  /** Water left under the steamer. */
  | "WATER_NOT_TAKEN_FROM_STEAM"
  /** Water taken up while soaking; it comes on top if the soaking water was poured off. */
  | "SOAK_UPTAKE"
  /** Water clinging after rinsing, and starch rinsed off. */
  | "RINSE_WATER_AND_STARCH"
  /** Water taken up from the cooling rinse. */
  | "COLD_RINSE_UPTAKE";

export interface MoisturePrediction {
  /** Raw moisture, wet basis, 0–1. */
  readonly rawMoisture: number;
  /** Grams of pot water per gram of raw grain; the scale on which recipes by mass and by volume compare. */
  readonly waterMassPerGrainMass: number;
  /** Wet basis, 0–1, with no water lost (L = 0): the nominal figure. */
  readonly moisture: number;
  /** Wet basis, 0–1, with 30 % of the water lost; `null` where the loss has no such bound (drained, steamed). */
  readonly moistureAtMostLoss: number | null;
  /** True when the grain cannot be wetter than `moisture`: nothing unknown adds water. */
  readonly isUpperBound: boolean;
  readonly assumed: readonly MoistureAssumption[];
  readonly unknown: readonly MoistureUnknown[];
}

/** Cups of cracked or flaked grain weigh other than cups of whole kernels: weigh the grain, or give the ratio by mass. */
export interface BulkDensityUnknown {
  readonly ok: false;
  readonly reason: "BULK_DENSITY_UNKNOWN";
}

/**
 * Moisture of cooked grain, wet basis (0–1): `(w0 + r(1−L)) / (1 + r(1−L))`, which conserves the solids.
 * `rawMoisture` w0 in 0–1 (1 excluded), `waterMassPerGrainMass` r ≥ 0, `waterLossShare` L in 0–1.
 * Throws RangeError outside these ranges.
 */
export function cookedMoisture(
  rawMoisture: number,
  waterMassPerGrainMass: number,
  waterLossShare: number,
): number {
  if (!(rawMoisture >= 0 && rawMoisture < 1)) {
    throw new RangeError(
      `Raw moisture is a share from 0 to below 1, not ${rawMoisture}; divide per cents by 100.`,
    );
  }
  const uptake = waterUptake(waterMassPerGrainMass, waterLossShare);
  return (rawMoisture + uptake) / (1 + uptake);
}

/** Grams of cooked grain per gram of raw grain, `1 + r(1−L)`; arguments as in `cookedMoisture`. */
export function cookedMassPerGrainMass(waterMassPerGrainMass: number, waterLossShare: number): number {
  return 1 + waterUptake(waterMassPerGrainMass, waterLossShare);
}

/**
 * The recipe's ratio as grams of water per gram of raw grain. A ratio by volume is `ratio × 0.998 / bulk density`
 * (g/mL), which is known for whole kernels only.
 */
export function waterMassPerGrainMass(
  figures: GrainFigures,
  recipe: VariantContent,
): { readonly ok: true; readonly value: number } | BulkDensityUnknown {
  if (recipe.ratioBasis === "mass") return { ok: true, value: recipe.waterToGrain };
  if (recipe.form !== "whole") return { ok: false, reason: "BULK_DENSITY_UNKNOWN" };
  return { ok: true, value: (recipe.waterToGrain * WATER_DENSITY_G_PER_ML) / figures.rawBulkDensityGPerMl };
}

/**
 * Moisture the recipe should give, from its ratio alone. The share of water lost is unknown, so the prediction is a
 * range from no loss (nominal, the wetter end) to 30 % lost. What is drained, rinsed or soaked up is named, not guessed.
 */
export function predictMoisture(
  figures: GrainFigures,
  recipe: VariantContent,
): { readonly ok: true; readonly prediction: MoisturePrediction } | BulkDensityUnknown {
  const ratio = waterMassPerGrainMass(figures, recipe);
  if (!ratio.ok) return ratio;
  const w0 = figures.rawWaterGPer100G / 100;
  const lossUnbounded = recipe.cookMethod === "boil-drain" || recipe.cookMethod === "steam";
  const addsUnknownWater = recipe.soakHours > 0 || recipe.rinsed || recipe.cooling === "cold-rinse";
  return {
    ok: true,
    prediction: {
      rawMoisture: w0,
      waterMassPerGrainMass: ratio.value,
      moisture: cookedMoisture(w0, ratio.value, 0),
      moistureAtMostLoss: lossUnbounded ? null : cookedMoisture(w0, ratio.value, MAX_WATER_LOSS_SHARE),
      isUpperBound: !addsUnknownWater,
      assumed: [
        "USDA_RAW_MOISTURE",
        "NO_WATER_LOST",
        ...(recipe.ratioBasis === "volume" ? (["USDA_BULK_DENSITY"] as const) : []),
      ],
      unknown: unknownsOf(recipe),
    },
  };
}

function unknownsOf(recipe: VariantContent): MoistureUnknown[] {
  const unknown: MoistureUnknown[] = [];
  if (recipe.rinsed) unknown.push("RINSE_WATER_AND_STARCH");
  if (recipe.soakHours > 0) unknown.push("SOAK_UPTAKE");
  if (recipe.cookMethod === "boil-drain") unknown.push("DRAINED_WATER");
  if (recipe.cookMethod === "steam") unknown.push("WATER_NOT_TAKEN_FROM_STEAM");
  if (recipe.cooling === "cold-rinse") unknown.push("COLD_RINSE_UPTAKE");
  return unknown;
}

function waterUptake(waterMassPerGrainMass: number, waterLossShare: number): number {
  if (!(waterMassPerGrainMass >= 0 && Number.isFinite(waterMassPerGrainMass))) {
    throw new RangeError(`Water per grain is a mass ratio of 0 or more, not ${waterMassPerGrainMass}.`);
  }
  if (!(waterLossShare >= 0 && waterLossShare <= 1)) {
    throw new RangeError(
      `The share of water lost is from 0 to 1, not ${waterLossShare}; divide per cents by 100.`,
    );
  }
  return waterMassPerGrainMass * (1 - waterLossShare);
}
