import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { GrainFigures } from "@/shared/vocabulary/grain";
import { KITCHEN_SCALE_STEP_G, WATER_DENSITY_G_PER_ML } from "@/shared/vocabulary/units";
import { assumedUptake } from "./assumed-uptake";
import { cookedBulkDensity } from "./cooked-bulk-density";
import {
  type BulkDensityUnknown,
  cookedMassPerGrainMass,
  type MoistureUnknown,
  predictMoisture,
} from "./moisture";

/** A box as it is filled: inner length and width, and how deep the grain lies, in centimetres. */
export interface BoxFill {
  readonly innerLengthCm: number;
  readonly innerWidthCm: number;
  readonly grainDepthCm: number;
}

/** A recipe with the published figures of its grain. */
export interface Recipe {
  readonly content: VariantContent;
  readonly figures: GrainFigures;
}

export type CookingAssumption =
  /** All pot water is taken up and none is lost, so a little less cooked grain may come out than was planned for. */
  | "ALL_WATER_TAKEN_UP"
  /** Some water is drained or stays under the steamer: the grain holds what the USDA's cooked entry holds. */
  | "UPTAKE_AS_USDA_COOKED"
  /** As above, and no cooked entry is published: it holds what other grains hold. */
  | "UPTAKE_AS_OTHER_GRAINS"
  /** Cooked grain lies as loosely as the cup the USDA weighed. */
  | "USDA_COOKED_CUP"
  /** No cooked cup weight is published: volume grows with the water as in other grains. */
  | "ASSUMED_EXPANSION"
  /** Cracked or flaked grain lies as whole kernels do. */
  | "LIES_AS_WHOLE_KERNELS";

/** What to weigh for one box. Masses to weigh are multiples of 5 g; the others are not rounded. */
export interface BoxAmounts {
  readonly dryGrainMassG: number;
  readonly waterMassG: number;
  /** The same water for a measuring jug, not rounded. */
  readonly waterVolumeMl: number;
  readonly cookedMassG: number;
  readonly cookedVolumeMl: number;
  readonly assumed: readonly CookingAssumption[];
  readonly unknown: readonly MoistureUnknown[];
}

/** Bulk volume of the cooked grain in one box, in millilitres (1 cm³ = 1 mL). Throws RangeError on sizes not above 0. */
export function cookedVolumeMl(fill: BoxFill): number {
  return (
    positive("Inner length", fill.innerLengthCm) *
    positive("Inner width", fill.innerWidthCm) *
    positive("Grain depth", fill.grainDepthCm)
  );
}

/**
 * Dry grain and water for one box. Dry grain is the cooked mass over `1 + uptake`; water follows from the rounded grain,
 * so that the ratio stays as near to the recipe's as the scale allows. Refused when cups cannot be turned into grams.
 */
export function amountsPerBox(
  recipe: Recipe,
  fill: BoxFill,
): { readonly ok: true; readonly amounts: BoxAmounts } | BulkDensityUnknown {
  const predicted = predictMoisture(recipe.figures, recipe.content);
  if (!predicted.ok) return predicted;
  const { waterMassPerGrainMass: r, unknown } = predicted.prediction;
  const uptake = assumedUptake(recipe.figures, predicted.prediction);
  const density = cookedBulkDensity(recipe.figures, uptake.gPerG);
  const volumeMl = cookedVolumeMl(fill);
  const cookedMassG = volumeMl * density.gPerMl;
  const dryGrainMassG = toScaleG(cookedMassG / cookedMassPerGrainMass(uptake.gPerG, 0));
  const waterMassG = toScaleG(dryGrainMassG * r);
  return {
    ok: true,
    amounts: {
      dryGrainMassG,
      waterMassG,
      waterVolumeMl: waterMassG / WATER_DENSITY_G_PER_ML,
      cookedMassG,
      cookedVolumeMl: volumeMl,
      assumed: [
        uptake.from,
        density.from,
        ...(recipe.content.form === "whole" ? [] : (["LIES_AS_WHOLE_KERNELS"] as const)),
      ],
      unknown,
    },
  };
}

/** To the nearest 5 g of a kitchen scale, halves up, never less than one step. */
function toScaleG(massG: number): number {
  return Math.max(1, Math.round(massG / KITCHEN_SCALE_STEP_G)) * KITCHEN_SCALE_STEP_G;
}

function positive(name: string, valueCm: number): number {
  if (!(valueCm > 0 && Number.isFinite(valueCm))) {
    throw new RangeError(`${name} is more than 0 cm, not ${valueCm}; measure the inside of the box.`);
  }
  return valueCm;
}
