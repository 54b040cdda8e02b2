import type { LeadTrialRow } from "@/lib/services/lead/read";
import { Button } from "@/lib/ui/components/button";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { FaultSummary } from "@/lib/ui/components/fault-summary";
import { FieldNotes } from "@/lib/ui/components/field";
import { NumberField } from "@/lib/ui/components/number-field";
import { SelectField } from "@/lib/ui/components/select-field";
import { TextField } from "@/lib/ui/components/text-field";
import { designMessages } from "@/lib/ui/messages/en/design";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { BOXES_PER_OUTING } from "@/shared/schemas/draw";
import { ARMS_PER_TRIAL } from "@/shared/schemas/plan";
import { PLANNER_LIMITS } from "@/shared/schemas/planner";
import { GRAINS } from "@/shared/vocabulary/grain";
import { DEVIATION_NAMES, type RequestValues } from "./request-values";

const { form: words, faults: faultWords } = designMessages;

interface Props {
  readonly trial: LeadTrialRow;
  readonly values: RequestValues;
  /** Codes by field. */
  readonly faults: Readonly<Record<string, string>>;
}

type FieldOf = (name: string) => {
  readonly name: string;
  readonly id: string;
  readonly defaultValue: string | undefined;
  readonly error: string | undefined;
};

const idOf = (name: string) => `design-${name.replace(".", "-")}`;

/**
 * What the lead expects. It is sent as the page's query, so that it works without scripts and can be kept as a link;
 * the address leads to what was found, or to what is wrong, which so takes focus.
 */
export function RequestForm({ trial, values, faults }: Props) {
  const wordsOf = (code: string) => faultWords[code] ?? fieldWords(code);
  const field: FieldOf = (name) => ({
    name,
    id: idOf(name),
    defaultValue: values.texts[name],
    error: faults[name] === undefined ? undefined : wordsOf(faults[name]),
  });
  const named = namesOf(trial);
  return (
    <form action="#found" className="group/form">
      {Object.keys(faults).length > 0 ? (
        <div id="found" tabIndex={-1}>
          <FaultSummary
            title={faultWords.title}
            faults={Object.entries(faults).map(([name, code]) => ({
              inputId: idOf(name),
              label: named[name] ?? name,
              words: wordsOf(code),
            }))}
          />
        </div>
      ) : null}
      <Recipes trial={trial} field={field} grains={values.grains} />
      <Growers trial={trial} field={field} />
      <Deviations field={field} />
      <Finds field={field} />
      <Button name="show" value="1">
        {words.submit}
      </Button>
    </form>
  );
}

/** What each field is called, for the list of faults. */
function namesOf(trial: LeadTrialRow): Readonly<Record<string, string>> {
  const groups = trial.grouping.flatMap((group) => {
    const name = vocabularyMessages.climateGroupName(group);
    return [
      [`growers.${group.code}`, words.growersIn(name)],
      [`sets.${group.code}`, words.setsIn(name)],
    ];
  });
  const deviations = DEVIATION_NAMES.map((name) => [`sd.${name}`, words.sd[name]]);
  return {
    ...words,
    again: words.again,
    ...Object.fromEntries(groups),
    ...Object.fromEntries(deviations),
  } as Record<string, string>;
}

const WHOLE = { step: 1, inputMode: "numeric" } as const;
const PAIR = "grid gap-x-6 sm:grid-cols-2 max-w-[44em]";

function Recipes({
  trial,
  field,
  grains,
}: {
  trial: LeadTrialRow;
  field: FieldOf;
  grains: readonly string[];
}) {
  const boxes = { ...WHOLE, min: BOXES_PER_OUTING.min, max: BOXES_PER_OUTING.max };
  return (
    <>
      <ChoiceField
        {...field("as")}
        legend={words.recipes}
        options={[
          { value: "list", label: words.asList, hint: words.asListHint(trial.arms.length) },
          { value: "grid", label: words.asGrid, hint: words.asGridHint },
        ]}
      />
      <div className="hidden group-has-[[value=list]:checked]/form:block">
        <NumberField {...field("count")} {...WHOLE} {...ARMS_PER_TRIAL} label={words.count} />
      </div>
      <div className="hidden group-has-[[value=grid]:checked]/form:block">
        <Grains field={field} chosen={grains} />
        <div className={PAIR}>
          <TextField {...field("ratios")} label={words.ratios} hint={words.ratiosHint} />
          <TextField {...field("minutes")} label={words.minutes} hint={words.minutesHint} />
        </div>
      </div>
      <div className={PAIR}>
        <NumberField {...field("boxesMin")} {...boxes} label={words.boxesMin} />
        <NumberField {...field("boxesMax")} {...boxes} label={words.boxesMax} />
      </div>
    </>
  );
}

function Grains({ field, chosen }: { field: FieldOf; chosen: readonly string[] }) {
  const { id, error } = field("grains");
  return (
    <fieldset id={id} className="mb-5 min-w-0" aria-describedby={error ? `${id}-error` : undefined}>
      <legend className="mb-1 font-semibold">{words.grains}</legend>
      <FieldNotes id={id} error={error} />
      <div className="grid max-w-[52em] grid-cols-[repeat(auto-fill,minmax(13.5em,1fr))] gap-x-4">
        {GRAINS.map((grain) => (
          <label key={grain} className="flex min-h-[44px] items-center gap-3">
            <input
              type="checkbox"
              name="grain"
              value={grain}
              defaultChecked={chosen.includes(grain)}
              className="size-6 shrink-0 accent-act"
            />
            {vocabularyMessages.grain[grain]}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

function Growers({ trial, field }: { trial: LeadTrialRow; field: FieldOf }) {
  const { growersPerGroup, setsPerGrower } = PLANNER_LIMITS;
  return (
    <fieldset className="min-w-0">
      <legend className="mb-1 text-[1.25rem] font-bold">{words.groups}</legend>
      <p className="mb-3 text-quiet">{words.growersHint}</p>
      {trial.grouping.map((group) => {
        const name = vocabularyMessages.climateGroupName(group);
        return (
          <div key={group.code} className={PAIR}>
            <NumberField
              {...field(`growers.${group.code}`)}
              {...WHOLE}
              {...growersPerGroup}
              label={words.growersIn(name)}
            />
            <NumberField
              {...field(`sets.${group.code}`)}
              {...WHOLE}
              {...setsPerGrower}
              label={words.setsIn(name)}
            />
          </div>
        );
      })}
    </fieldset>
  );
}

function Deviations({ field }: { field: FieldOf }) {
  return (
    <fieldset className="min-w-0">
      <legend className="mb-1 text-[1.25rem] font-bold">{words.deviations}</legend>
      <p className="mb-3 max-w-[44em] text-quiet">{words.deviationsLead}</p>
      <div className={PAIR}>
        {DEVIATION_NAMES.map((name) => (
          <NumberField key={name} {...field(`sd.${name}`)} label={words.sd[name]} hint={words.sdHint[name]} />
        ))}
      </div>
      <SelectField
        {...field("sdFrom")}
        label={words.sdFrom}
        options={Object.entries(words.sdFromOptions).map(([value, label]) => ({ value, label }))}
      />
    </fieldset>
  );
}

function Finds({ field }: { field: FieldOf }) {
  return (
    <fieldset className="min-w-0">
      <legend className="mb-3 text-[1.25rem] font-bold">{words.finds}</legend>
      <div className={PAIR}>
        <NumberField {...field("difference")} label={words.difference} hint={words.differenceHint} />
        <NumberField {...field("margin")} label={words.margin} hint={words.marginHint} />
        <NumberField
          {...field("cleanBase")}
          label={words.cleanBase}
          hint={words.cleanHint}
          unit={words.percent}
        />
        <NumberField {...field("cleanMore")} label={words.cleanMore} unit={words.percent} />
        <NumberField {...field("again")} label={words.again} hint={words.againHint} unit={words.percent} />
      </div>
    </fieldset>
  );
}
