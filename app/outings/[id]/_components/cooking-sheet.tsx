import type { OutingView } from "@/lib/services/growing/outing-view";
import { Caution } from "@/lib/ui/components/caution";
import { DataTable } from "@/lib/ui/components/data-table";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

const words = growingMessages.outing;
const columns = words.cookingColumns;

/** Each recipe that was drawn, for how many boxes, with what to weigh for one. */
export function CookingSheet({ outing }: { outing: OutingView }) {
  const recipes = new Map(
    outing.boxes.flatMap(({ recipe }) => (recipe ? [[recipe.variantId, recipe.content] as const] : [])),
  );
  return (
    <section className="mb-8">
      <h2 className="mb-2">{words.cookTitle}</h2>
      <Caution title={words.coolCautionTitle}>
        <p>{words.coolCaution}</p>
      </Caution>
      <DataTable
        caption={words.cookTitle}
        columns={[
          { key: "recipe", label: columns.recipe },
          { key: "boxes", label: columns.boxes },
          { key: "grain", label: columns.grain, numeric: true },
          { key: "water", label: columns.water, numeric: true },
          { key: "how", label: columns.how },
        ]}
        rows={[...recipes].map(([variantId, content]) => {
          const perBox = outing.amounts.get(variantId)?.perBox;
          return {
            recipe: vocabularyMessages.recipeName(content),
            boxes: outing.boxes
              .filter((box) => box.recipe?.variantId === variantId)
              .map(({ code }) => code)
              .join(", "),
            grain: perBox ? words.grams(perBox.dryGrainMassG) : words.weighYourself,
            water: perBox ? words.grams(perBox.waterMassG) : words.weighYourself,
            how: vocabularyMessages.recipeSteps(content),
          };
        })}
      />
      <p className="max-w-[44em] text-quiet">{words.assumed}</p>
    </section>
  );
}
