import type { OutingView } from "@/lib/services/growing/outing-view";
import type { GrainId } from "@/shared/vocabulary/grain";

/** The grains of a drawn set's recipes, each once. */
export function grainsOf({ boxes }: OutingView): GrainId[] {
  return [...new Set(boxes.flatMap(({ recipe }) => (recipe ? [recipe.content.grain] : [])))];
}
