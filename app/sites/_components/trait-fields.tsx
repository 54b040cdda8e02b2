import { ChoiceField } from "@/lib/ui/components/choice-field";
import { NumberField } from "@/lib/ui/components/number-field";
import { typedNumber } from "@/lib/ui/form-numbers";
import { placeMessages as words } from "@/lib/ui/messages/en/places";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { SiteTraits } from "@/shared/schemas/site-traits";
import { type Measure, UNMEASURED } from "@/shared/vocabulary/growth";
import { CANOPIES, GROUND_MOISTURES, SUN_HOURS, WHITE_THREADS } from "@/shared/vocabulary/place";

interface Props {
  readonly standing?: SiteTraits;
  readonly errorOf: (field: string) => string | undefined;
}

/** What a place is like; every answer may be left out, not measured, or impossible to tell. */
export function TraitFields({ standing, errorOf }: Props) {
  return (
    <>
      <ChoiceField
        name="canopy"
        legend={words.canopyLabel}
        options={optionsOf(CANOPIES, words.canopy)}
        defaultValue={chosen(standing?.canopy)}
      />
      <NumberField
        id="litterDepth"
        name="litterDepth"
        label={words.litterLabel}
        hint={words.litterHint}
        unit={words.cm}
        error={errorOf("traits.litterDepthCm.value") ?? errorOf("traits.litterDepthCm")}
        defaultValue={numberOf(standing?.litterDepthCm)}
      />
      <ChoiceField
        name="litterWhy"
        legend={words.litterWhy}
        options={optionsOf([], {})}
        defaultValue={chosen(standing?.litterDepthCm)}
      />
      <ChoiceField
        name="whiteThreads"
        legend={words.threadsLabel}
        hint={words.threadsHint}
        options={optionsOf(WHITE_THREADS, words.threads)}
        defaultValue={chosen(standing?.whiteThreads)}
      />
      <ChoiceField
        name="groundMoisture"
        legend={words.groundLabel}
        options={optionsOf(GROUND_MOISTURES, words.ground)}
        defaultValue={chosen(standing?.groundMoisture)}
      />
      <ChoiceField
        name="sun"
        legend={words.sunLabel}
        options={optionsOf(SUN_HOURS, words.sun)}
        defaultValue={chosen(standing?.sun)}
      />
    </>
  );
}

/** The traits a form holds; a number decides over a reason for none. */
export function typedTraits(form: FormData): SiteTraits {
  const depth = String(form.get("litterDepth") ?? "").trim();
  return {
    canopy: typedChoice(form, "canopy", CANOPIES),
    litterDepthCm:
      depth === "" ? typedChoice(form, "litterWhy", [] as never[]) : { value: typedNumber(depth) },
    whiteThreads: typedChoice(form, "whiteThreads", WHITE_THREADS),
    groundMoisture: typedChoice(form, "groundMoisture", GROUND_MOISTURES),
    sun: typedChoice(form, "sun", SUN_HOURS),
  };
}

function optionsOf<Word extends string>(list: readonly Word[], names: Readonly<Record<Word, string>>) {
  return [
    ...list.map((value) => ({ value, label: names[value] })),
    ...UNMEASURED.map((value) => ({ value, label: vocabularyMessages.unmeasured[value] })),
  ];
}

function chosen(answer: Measure<unknown> | undefined): string | undefined {
  if (!answer) return undefined;
  if (typeof answer === "string") return answer;
  return typeof answer.value === "string" ? answer.value : undefined;
}

function numberOf(answer: Measure<number> | undefined): number | undefined {
  return answer && typeof answer === "object" ? answer.value : undefined;
}

function typedChoice<Word extends string>(
  form: FormData,
  name: string,
  list: readonly Word[],
): Measure<Word> {
  const answer = form.get(name);
  const value = list.find((word) => word === answer);
  return value ? { value } : (UNMEASURED.find((why) => why === answer) ?? null);
}
