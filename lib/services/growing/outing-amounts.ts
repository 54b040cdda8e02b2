import type { TrialRules } from "@/lib/data/outings";
import { cookableArms } from "@/lib/engine/design/draw";
import type { BoxAmounts, BoxFill } from "@/lib/engine/grain/cooking-amounts";
import { type GrainToBuy, mostGrainBeforeDraw, shoppingList } from "@/lib/engine/grain/shopping-list";
import { GRAIN_FIGURES } from "@/lib/reference/grains";
import type { VariantContent } from "@/shared/schemas/protocol-variant";

/** What was drawn for a box. */
export interface BoxRecipe {
  readonly variantId: string;
  readonly content: VariantContent;
}

/** What to cook of each drawn recipe, and for how many boxes; a recipe that can't be weighed is absent. */
export type AmountsByVariant = ReadonlyMap<string, { readonly boxes: number; readonly perBox: BoxAmounts }>;

/**
 * One recipe comes up at most ⌈boxes ÷ recipes that can be cooked⌉ times: the draw takes whole rounds first, also
 * where recipes of an earlier set come back.
 */
export function mostGrain(
  trial: TrialRules,
  grainsAtHand: readonly string[],
  fill: BoxFill,
  boxes: number,
): readonly GrainToBuy[] | null {
  const candidates = cookableArms(trial.arms, grainsAtHand).map(({ variantId, content }) => ({
    variantId,
    content,
    figures: GRAIN_FIGURES[content.grain],
  }));
  if (candidates.length === 0) return null;
  const most = mostGrainBeforeDraw(candidates, fill, boxes, Math.ceil(boxes / candidates.length));
  return most.ok ? most.grains : null;
}

export function amountsByVariant(
  boxes: readonly { readonly recipe: BoxRecipe | null }[],
  fill: BoxFill,
): AmountsByVariant {
  const amounts = new Map<string, { boxes: number; perBox: BoxAmounts }>();
  const variants = new Map<string, VariantContent[]>();
  for (const { recipe } of boxes) {
    if (recipe) variants.set(recipe.variantId, [...(variants.get(recipe.variantId) ?? []), recipe.content]);
  }
  // One list per recipe, so that one that can't be weighed does not take the others' amounts away.
  for (const [variantId, contents] of variants) {
    const recipes = contents.map((content) => ({
      variantId,
      content,
      figures: GRAIN_FIGURES[content.grain],
    }));
    const result = shoppingList(recipes, fill);
    const batch = result.ok ? result.list.batches[0] : undefined;
    if (batch) amounts.set(variantId, { boxes: batch.boxes, perBox: batch.perBox });
  }
  return amounts;
}
