import type { TrialRecipe } from "@/lib/services/read-trials";
import { DataTable } from "@/lib/ui/components/data-table";
import { decimal } from "@/lib/ui/format";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

/** The recipes in words, their water on one scale, and how moist they should come out. */
export function RecipeTable({ recipes }: { recipes: readonly TrialRecipe[] }) {
  return (
    <>
      <DataTable
        caption={words.recipesCaption}
        columns={[
          { key: "name", label: words.recipe },
          { key: "how", label: words.how },
          { key: "water", label: words.waterByMass, numeric: true },
          { key: "moisture", label: words.moisture },
        ]}
        rows={recipes.map(({ content, moisture }) => ({
          name: vocabularyMessages.recipeName(content),
          how: vocabularyMessages.recipeSteps(content),
          water: moisture ? decimal(moisture.waterMassPerGrainMass, 2) : words.notThere,
          moisture: moistureWords(moisture),
        }))}
      />
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
