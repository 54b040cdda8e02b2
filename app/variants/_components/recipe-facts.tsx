import type { RegisteredVariant } from "@/lib/services/growing/variants";
import { Facts } from "@/lib/ui/components/facts";
import { decimal } from "@/lib/ui/format";
import { recipeMessages } from "@/lib/ui/messages/en/recipes";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

const words = recipeMessages;

/** A recipe in words, on the scale by weight on which all recipes compare, with the moisture to expect. */
export function RecipeFacts({ content, moisture }: Pick<RegisteredVariant, "content" | "moisture">) {
  const ratio = moisture ? words.ratioValue(decimal(moisture.waterMassPerGrainMass, 2)) : words.ratioUnknown;
  return (
    <Facts
      items={[
        { label: words.grain, value: vocabularyMessages.recipeName(content) },
        { label: words.steps, value: vocabularyMessages.recipeSteps(content) },
        { label: words.ratioByMass, value: ratio },
        ...(moisture ? [{ label: words.moisture, value: moistureWords(moisture) }] : []),
      ]}
    />
  );
}

function moistureWords(moisture: NonNullable<RegisteredVariant["moisture"]>): string {
  const most = decimal(moisture.moisture * 100, 0);
  const range =
    moisture.moistureAtMostLoss === null
      ? words.moistureOpen(most)
      : words.moistureRange(decimal(moisture.moistureAtMostLoss * 100, 0), most);
  return moisture.isUpperBound ? range : `${range}. ${words.moistureMore}`;
}
