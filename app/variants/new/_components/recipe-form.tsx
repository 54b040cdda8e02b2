"use client";

import { type FormEvent, useState } from "react";
import type { RegisteredVariant, ShelfView } from "@/lib/services/growing/variants";
import { Button, ButtonLink } from "@/lib/ui/components/button";
import { CheckField } from "@/lib/ui/components/check-field";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { Notice } from "@/lib/ui/components/notice";
import { NumberField } from "@/lib/ui/components/number-field";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { SelectField } from "@/lib/ui/components/select-field";
import { TextField } from "@/lib/ui/components/text-field";
import { typedNumber } from "@/lib/ui/form-numbers";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { recipeMessages } from "@/lib/ui/messages/en/recipes";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { useWrite } from "@/lib/ui/use-write";
import { COOK_METHODS, COOLING_WAYS, GRAIN_FORMS, GRAINS, RATIO_BASES } from "@/shared/vocabulary/grain";
import { NearTwins } from "../../_components/near-twins";
import { RecipeFacts } from "../../_components/recipe-facts";

const words = recipeMessages;

/** Options of a closed list, none of them chosen. */
function optionsOf<Word extends string>(list: readonly Word[], names: Readonly<Record<Word, string>>) {
  return list.map((value) => ({ value, label: names[value] }));
}

const unchosen = { value: "", label: growingMessages.chooseFirst };

/** A recipe on the shelf whose next version is written down. */
export type EarlierVersion = Pick<ShelfView, "variantId" | "name" | "content">;

/** A new recipe; `earlier` fills the form with the version it follows. */
export function RecipeForm({ earlier }: { earlier?: EarlierVersion }) {
  const before = earlier?.content;
  const { busy, problem, send } = useWrite<RegisteredVariant>("/api/v1/variants");
  const [saved, setSaved] = useState<RegisteredVariant | null>(null);
  const errorOf = (field: string) => {
    const fault = problem?.fields.find(({ path }) => path === field || path === `content.${field}`);
    return fault && fieldWords(fault.code);
  };
  const inputs = Object.fromEntries(
    problem?.fields.map(({ path }) => [path, path.replace("content.", "")]) ?? [],
  );

  async function save(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const text = (name: string) => form.get(name) ?? "";
    const answer = await send({
      name: text("name"),
      ...(earlier ? { followsVariantId: earlier.variantId } : {}),
      content: {
        grain: text("grain"),
        form: text("form"),
        rinsed: form.get("rinsed") === "on",
        soakHours: typedNumber(text("soakHours")),
        waterToGrain: typedNumber(text("waterToGrain")),
        ratioBasis: text("ratioBasis"),
        cookMethod: text("cookMethod"),
        cookMinutes: typedNumber(text("cookMinutes")),
        cooling: text("cooling"),
      },
    });
    if (answer) setSaved(answer);
  }

  if (saved) {
    const unchanged = saved.variantId === earlier?.variantId;
    return (
      <>
        <Notice kind="ok">{unchanged ? words.sameAsBefore : saved.known ? words.known : words.saved}</Notice>
        <RecipeFacts content={saved.content} moisture={saved.moisture} />
        <p className="mb-6 max-w-[44em] text-quiet">{words.moistureBasis}</p>
        <NearTwins twins={saved.twins} />
        <p className="mt-5 flex flex-wrap gap-3">
          <ButtonLink href={`/variants/${saved.variantId}`}>{words.toThis}</ButtonLink>
          <ButtonLink kind="quiet" href="/variants">
            {words.toList}
          </ButtonLink>
        </p>
      </>
    );
  }
  return (
    <form onSubmit={save} noValidate>
      <TextField
        id="name"
        name="name"
        label={words.name}
        error={errorOf("name")}
        maxLength={80}
        defaultValue={earlier?.name}
      />
      <SelectField
        id="grain"
        name="grain"
        defaultValue={before?.grain}
        label={words.grain}
        error={errorOf("grain")}
        options={[unchosen, ...optionsOf(GRAINS, vocabularyMessages.grain)]}
      />
      <ChoiceField
        id="form"
        name="form"
        defaultValue={before?.form}
        legend={words.form}
        error={errorOf("form")}
        options={optionsOf(GRAIN_FORMS, vocabularyMessages.grainForm)}
      />
      <CheckField name="rinsed" label={words.rinsed} defaultChecked={before?.rinsed} />
      <NumberField
        id="soakHours"
        name="soakHours"
        label={words.soakHours}
        unit={words.hours}
        error={errorOf("soakHours")}
        defaultValue={before?.soakHours}
      />
      <NumberField
        id="waterToGrain"
        name="waterToGrain"
        defaultValue={before?.waterToGrain}
        label={words.waterToGrain}
        unit={words.parts}
        error={errorOf("waterToGrain")}
      />
      <ChoiceField
        id="ratioBasis"
        name="ratioBasis"
        defaultValue={before?.ratioBasis}
        legend={words.ratioBasis}
        error={errorOf("ratioBasis")}
        options={optionsOf(RATIO_BASES, vocabularyMessages.ratioBasis)}
      />
      <SelectField
        id="cookMethod"
        name="cookMethod"
        defaultValue={before?.cookMethod}
        label={words.cookMethod}
        error={errorOf("cookMethod")}
        options={[unchosen, ...optionsOf(COOK_METHODS, vocabularyMessages.cookMethod)]}
      />
      <NumberField
        id="cookMinutes"
        name="cookMinutes"
        defaultValue={before?.cookMinutes}
        label={words.cookMinutes}
        hint={words.cookMinutesHint}
        unit={words.minutes}
        error={errorOf("cookMinutes")}
      />
      <SelectField
        id="cooling"
        name="cooling"
        defaultValue={before?.cooling}
        label={words.cooling}
        error={errorOf("cooling")}
        options={[unchosen, ...optionsOf(COOLING_WAYS, vocabularyMessages.cooling)]}
      />
      <ProblemNotice problem={problem} inputs={inputs} />
      <Button disabled={busy}>{busy ? growingMessages.sending : words.save}</Button>
    </form>
  );
}
