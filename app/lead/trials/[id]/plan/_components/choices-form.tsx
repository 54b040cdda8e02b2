"use client";

import { faultWords } from "@/app/lead/trials/_components/fault-words";
import { ActionForm } from "@/lib/ui/components/action-form";
import { CheckField } from "@/lib/ui/components/check-field";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { NumberField } from "@/lib/ui/components/number-field";
import { SelectField, type SelectOption } from "@/lib/ui/components/select-field";
import { TextField } from "@/lib/ui/components/text-field";
import { dayWords } from "@/lib/ui/format";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { LEAST_MINIMUM } from "@/shared/schemas/plan";
import { BOX_KINDS } from "@/shared/vocabulary/box";
import { keepChoices } from "../actions";
import type { ChoiceValues, FIELDS } from "./choices-values";

const { choices: words, outcomes } = leadMessages;

const LOOKS = [1, 2, 3, 4, 5].map((n) => ({ value: String(n), label: words.looksOption(n) }));

interface Props {
  readonly trialId: string;
  readonly endsOn: string;
  readonly recipes: readonly SelectOption[];
  readonly values: ChoiceValues;
}

/** What a field shows and is called, from what was typed last or stands stored. */
type FieldOf = (name: (typeof FIELDS)[number]) => {
  readonly name: string;
  readonly defaultValue: string;
  readonly error: string | undefined;
};

export function ChoicesForm({ trialId, endsOn, recipes, values }: Props) {
  return (
    <ActionForm action={keepChoices} words={outcomes} submit={words.submit}>
      {(state) => {
        const shown = (state.values ?? values) as ChoiceValues;
        const field: FieldOf = (name) => ({
          name,
          defaultValue: shown[name],
          error: faultWords(state, name),
        });
        return (
          <div className="group/choices">
            <input type="hidden" name="trialId" value={trialId} />
            <Comparing field={field} recipes={recipes} />
            <Hidden field={field} />
            <Ending field={field} endsOn={endsOn} />
            <Growing field={field} />
            <Boxes field={field} />
          </div>
        );
      }}
    </ActionForm>
  );
}

function optionsOf(options: Readonly<Record<string, { readonly label: string; readonly hint: string }>>) {
  return Object.entries(options).map(([value, option]) => ({ value, ...option }));
}

function Comparing({ field, recipes }: { field: FieldOf; recipes: readonly SelectOption[] }) {
  return (
    <>
      <h2 className="mb-3">{words.comparing}</h2>
      <ChoiceField
        {...field("primaryComparison.kind")}
        legend={words.comparison}
        hint={words.comparisonHint}
        options={optionsOf(words.comparisons).filter(
          ({ value }) => value !== "against-reference" || recipes.length > 0,
        )}
        stacked
      />
      {recipes.length > 0 ? (
        <div className="hidden group-has-[[value=against-reference]:checked]/choices:block">
          <SelectField {...field("primaryComparison.arm")} label={words.reference} options={recipes} />
        </div>
      ) : null}
      <NumberField {...field("margin")} label={words.margin} hint={words.marginHint} min={0} max={4} />
      <SelectField {...field("looks.count")} label={words.looks} hint={words.looksHint} options={LOOKS} />
    </>
  );
}

function Hidden({ field }: { field: FieldOf }) {
  const count = { step: 1, inputMode: "numeric" } as const;
  return (
    <>
      <h2 className="mt-8 mb-3">{words.hidden}</h2>
      <NumberField
        {...field("minimum.boxesPerCell")}
        {...count}
        label={words.minimumBoxes}
        hint={words.minimumHint(LEAST_MINIMUM.boxesPerCell)}
        min={LEAST_MINIMUM.boxesPerCell}
      />
      <NumberField
        {...field("minimum.growersPerCell")}
        {...count}
        label={words.minimumGrowers}
        hint={words.minimumHint(LEAST_MINIMUM.growersPerCell)}
        min={LEAST_MINIMUM.growersPerCell}
      />
    </>
  );
}

function Ending({ field, endsOn }: { field: FieldOf; endsOn: string }) {
  return (
    <>
      <h2 className="mt-8 mb-3">{words.ends}</h2>
      <NumberField
        {...field("endsAtBoxes")}
        label={words.endsAtBoxes}
        hint={words.endsAtBoxesHint(dayWords(endsOn))}
        min={1}
        step={1}
        inputMode="numeric"
      />
      <ChoiceField
        {...field("earlyCloseRule")}
        legend={words.early}
        options={optionsOf(words.earlyRules)}
        stacked
      />
    </>
  );
}

function Growing({ field }: { field: FieldOf }) {
  return (
    <>
      <h2 className="mt-8 mb-3">{words.boxes}</h2>
      <ChoiceField
        {...field("fetchRule.kind")}
        legend={words.fetch}
        options={optionsOf(words.fetchRules)}
        stacked
      />
      <div className="hidden group-has-[[value=same-day]:checked]/choices:block group-has-[[value=staged]:checked]/choices:block">
        <TextField {...field("fetchRule.afterDays")} label={words.fetchDays} hint={words.fetchDaysHint} />
      </div>
      <NumberField
        {...field("meetAgainShare")}
        label={words.again}
        hint={words.againHint}
        unit={words.percent}
        min={0}
        max={100}
      />
    </>
  );
}

/** Limits to the boxes; every field may stay empty. */
function Boxes({ field }: { field: FieldOf }) {
  const kinds = field("boxLimits.kinds");
  return (
    <>
      <h2 className="mt-8 mb-3">{words.boxLimits}</h2>
      <p className="mb-4 max-w-[38em] text-quiet">{words.boxLimitsLead}</p>
      <fieldset className="mb-5">
        <legend className="font-semibold">{words.boxKinds}</legend>
        <div className="grid grid-cols-2 sm:max-w-[30em] sm:grid-cols-3">
          {BOX_KINDS.map((kind) => (
            <CheckField
              key={kind}
              name={kinds.name}
              value={kind}
              label={vocabularyMessages.boxKind[kind]}
              defaultChecked={kinds.defaultValue.split(" ").includes(kind)}
            />
          ))}
        </div>
      </fieldset>
      <NumberField {...field("boxLimits.grainDepthCm.min")} label={words.leastDepth} unit={words.cm} />
      <NumberField {...field("boxLimits.grainDepthCm.max")} label={words.mostDepth} unit={words.cm} />
      <NumberField
        {...field("boxLimits.minSpacingCm")}
        label={words.leastSpacing}
        unit={words.cm}
        inputMode="numeric"
      />
    </>
  );
}
