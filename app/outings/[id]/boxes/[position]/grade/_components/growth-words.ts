import type { Growth } from "@/lib/services/growing/grades";
import type { Fact } from "@/lib/ui/components/facts";
import { growthMessages } from "@/lib/ui/messages/en/growth";
import { resultMessages } from "@/lib/ui/messages/en/record-result";

const words = resultMessages;

/** What follows from the answers, each with its reason. */
export function growthFacts({ take, cleanTake }: Growth): readonly Fact[] {
  return [
    { label: words.growth, value: takeWords(take) },
    { label: words.cleanTake, value: cleanWords(cleanTake) },
  ];
}

export function takeWords(take: Growth["take"]): string {
  if (take.take === null) return words.growthUnknown[take.reason];
  const { name, range } = growthMessages.growth[take.take];
  const from = take.from === "PERCENT" ? words.growthFromPercent : words.growthFromClass;
  return `${name} (${range}), ${from}${take.classDiffers ? `. ${words.classDiffers}` : ""}`;
}

function cleanWords({ cleanTake, reasons }: Growth["cleanTake"]): string {
  const answer = cleanTake === null ? words.cleanUnknown : cleanTake ? words.cleanYes : words.cleanNo;
  return `${answer}: ${reasons.map((reason) => words.cleanReasons[reason]).join("; ")}`;
}
