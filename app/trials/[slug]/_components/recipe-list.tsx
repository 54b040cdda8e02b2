import type { TrialRecipe } from "@/lib/services/read-trials";
import { decimal } from "@/lib/ui/format";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

/** The recipes in words, their water on one scale, and how moist they should come out. */
export function RecipeList({ recipes }: { recipes: readonly TrialRecipe[] }) {
  return (
    <>
      <ul className="mb-4 max-w-[44em] border-t-2 border-ink">
        {recipes.map(({ code, content, moisture }) => (
          <li key={code} className="border-b border-line py-3">
            <p className="font-semibold">{vocabularyMessages.recipeName(content)}</p>
            <p>{vocabularyMessages.recipeSteps(content)}</p>
            <p className="text-quiet">
              {moisture ? `${words.waterByMass(decimal(moisture.waterMassPerGrainMass, 2))} · ` : null}
              {words.moisture(moistureWords(moisture))}
            </p>
          </li>
        ))}
      </ul>
      <p className="max-w-[42em] text-[0.9375rem] text-quiet">{words.moistureNote}</p>
    </>
  );
}

function moistureWords(prediction: TrialRecipe["moisture"]): string {
  if (!prediction) return words.moistureUnknown;
  const { moisture, moistureAtMostLoss, isUpperBound, unknown } = prediction;
  const most = decimal(moisture * 100, 0);
  const figure =
    moistureAtMostLoss !== null
      ? words.moistureRange(decimal(moistureAtMostLoss * 100, 0), most)
      : isUpperBound
        ? words.moistureAtMost(most)
        : words.moistureAbout(most);
  return unknown.length === 0 ? figure : `${figure}; ${words.notCounted(unknown)}`;
}
