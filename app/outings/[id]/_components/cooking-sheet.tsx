import type { OutingView } from "@/lib/services/growing/outing-view";
import { Caution } from "@/lib/ui/components/caution";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

const words = setMessages.outing;

/** Each recipe that was drawn: for which boxes, what to weigh for one, and how to cook it. */
export function CookingSheet({ outing }: { outing: Pick<OutingView, "boxes" | "amounts"> }) {
  const recipes = new Map(
    outing.boxes.flatMap(({ recipe }) => (recipe ? [[recipe.variantId, recipe.content] as const] : [])),
  );
  return (
    <>
      <Caution title={words.coolCautionTitle}>
        <p>{words.coolCaution}</p>
      </Caution>
      <ul>
        {[...recipes].map(([variantId, content]) => {
          const perBox = outing.amounts.get(variantId)?.perBox;
          const boxes = outing.boxes.filter((box) => box.recipe?.variantId === variantId);
          return (
            <li
              key={variantId}
              className="break-inside-avoid border-b border-line py-3 first:border-t-2 first:border-t-ink"
            >
              <h3>{vocabularyMessages.recipeName(content)}</h3>
              <p>
                {words.forBoxes} <span className="font-mono">{boxes.map(({ code }) => code).join(", ")}</span>
              </p>
              <p className="text-[1.25rem] font-semibold">
                {perBox
                  ? words.perBox(words.grams(perBox.dryGrainMassG), words.grams(perBox.waterMassG))
                  : words.weighYourself}
              </p>
              <p className="text-quiet">{vocabularyMessages.recipeSteps(content)}</p>
            </li>
          );
        })}
      </ul>
      <p className="mt-3 mb-4 text-quiet">{words.assumed}</p>
    </>
  );
}
