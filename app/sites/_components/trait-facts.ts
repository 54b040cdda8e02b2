import type { Fact } from "@/lib/ui/components/facts";
import { placeMessages as words } from "@/lib/ui/messages/en/places";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { SiteTraits } from "@/shared/schemas/site-traits";
import type { Measure } from "@/shared/vocabulary/growth";

/** What a place is like, trait by trait; one nobody told says so. */
export function traitFacts(traits: SiteTraits): Fact[] {
  return [
    { label: words.canopyLabel, value: answer(traits.canopy, (value) => words.canopy[value]) },
    { label: words.litterLabel, value: answer(traits.litterDepthCm, words.litterValue) },
    { label: words.threadsLabel, value: answer(traits.whiteThreads, (value) => words.threads[value]) },
    { label: words.groundLabel, value: answer(traits.groundMoisture, (value) => words.ground[value]) },
    { label: words.sunLabel, value: answer(traits.sun, (value) => words.sun[value]) },
  ];
}

function answer<Value>(measured: Measure<Value>, name: (value: Value) => string): string {
  if (measured === null) return words.noAnswer;
  return typeof measured === "string" ? vocabularyMessages.unmeasured[measured] : name(measured.value);
}
