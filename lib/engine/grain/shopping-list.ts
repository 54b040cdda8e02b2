import type { GrainId } from "@/shared/vocabulary/grain";
import { amountsPerBox, type BoxAmounts, type BoxFill, type Recipe } from "./cooking-amounts";

/** A recipe under the id of its protocol variant. */
export interface NamedRecipe extends Recipe {
  readonly variantId: string;
}

/** A recipe given in cups of a form whose cup weight is unknown; weigh a cup, or choose a recipe by mass. */
export interface RecipeNotWeighable {
  readonly ok: false;
  readonly reason: "BULK_DENSITY_UNKNOWN";
  readonly variantId: string;
}

/** One recipe of an outing: what to weigh per box and in all. */
export interface BatchAmounts {
  readonly variantId: string;
  readonly grain: GrainId;
  readonly boxes: number;
  readonly perBox: BoxAmounts;
  readonly dryGrainMassG: number;
  readonly waterMassG: number;
  readonly cookedMassG: number;
}

/** Dry grain of one kind to have in the house, in grams. */
export interface GrainToBuy {
  readonly grain: GrainId;
  readonly dryGrainMassG: number;
}

export interface ShoppingList {
  /** In the order in which the recipes first occur among the boxes. */
  readonly batches: readonly BatchAmounts[];
  /** One entry per grain, over all its recipes. */
  readonly grains: readonly GrainToBuy[];
}

/** Amounts for an outing after its draw: `recipes` holds one entry per box, all boxes filled alike. */
export function shoppingList(
  recipes: readonly NamedRecipe[],
  fill: BoxFill,
): { readonly ok: true; readonly list: ShoppingList } | RecipeNotWeighable {
  const batches = new Map<string, BatchAmounts>();
  for (const recipe of recipes) {
    const known = batches.get(recipe.variantId);
    const result = known ? { ok: true as const, amounts: known.perBox } : amountsPerBox(recipe, fill);
    if (!result.ok) return { ...result, variantId: recipe.variantId };
    batches.set(recipe.variantId, batchOf(recipe, result.amounts, (known?.boxes ?? 0) + 1));
  }
  const list = [...batches.values()];
  const massesG = new Map<GrainId, number>();
  for (const batch of list) {
    massesG.set(batch.grain, (massesG.get(batch.grain) ?? 0) + batch.dryGrainMassG);
  }
  return {
    ok: true,
    list: {
      batches: list,
      grains: [...massesG].map(([grain, dryGrainMassG]) => ({ grain, dryGrainMassG })),
    },
  };
}

function batchOf(recipe: NamedRecipe, perBox: BoxAmounts, boxes: number): BatchAmounts {
  return {
    variantId: recipe.variantId,
    grain: recipe.content.grain,
    boxes,
    perBox,
    dryGrainMassG: perBox.dryGrainMassG * boxes,
    waterMassG: perBox.waterMassG * boxes,
    cookedMassG: perBox.cookedMassG * boxes,
  };
}

/**
 * The most dry grain of each kind that any draw could ask for, in grams, to be had before the draw is seen.
 * `candidates` are the trial's recipes the grower can cook; `mostBoxesPerRecipe` is the draw's own limit on how often
 * one recipe may come up in an outing (no limit: all boxes). The grains' figures do not add up: they cannot all be reached.
 */
export function mostGrainBeforeDraw(
  candidates: readonly NamedRecipe[],
  fill: BoxFill,
  boxes: number,
  mostBoxesPerRecipe: number = boxes,
): { readonly ok: true; readonly grains: readonly GrainToBuy[] } | RecipeNotWeighable {
  if (
    !Number.isInteger(boxes) ||
    boxes < 1 ||
    !Number.isInteger(mostBoxesPerRecipe) ||
    mostBoxesPerRecipe < 1
  ) {
    throw new RangeError("Boxes and boxes per recipe are whole numbers of at least 1.");
  }
  const perBoxMassesG = new Map<GrainId, number[]>();
  for (const recipe of candidates) {
    const result = amountsPerBox(recipe, fill);
    if (!result.ok) return { ...result, variantId: recipe.variantId };
    const { grain } = recipe.content;
    perBoxMassesG.set(grain, [...(perBoxMassesG.get(grain) ?? []), result.amounts.dryGrainMassG]);
  }
  const grains = [...perBoxMassesG].map(([grain, masses]) => ({
    grain,
    dryGrainMassG: mostOf(masses, boxes, mostBoxesPerRecipe),
  }));
  return { ok: true, grains };
}

/** Largest sum of `boxes` masses when each may be taken at most `mostEach` times: the heaviest first. */
function mostOf(massesG: readonly number[], boxes: number, mostEach: number): number {
  let boxesLeft = boxes;
  let totalG = 0;
  for (const massG of [...massesG].sort((a, b) => b - a)) {
    const taken = Math.min(mostEach, boxesLeft);
    totalG += taken * massG;
    boxesLeft -= taken;
  }
  return totalG;
}
