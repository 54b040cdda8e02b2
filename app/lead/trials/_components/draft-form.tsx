"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { FieldNotes } from "@/lib/ui/components/field";
import { NumberField } from "@/lib/ui/components/number-field";
import { TextAreaField } from "@/lib/ui/components/text-area-field";
import { TextField } from "@/lib/ui/components/text-field";
import type { FormState } from "@/lib/ui/form-state";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { BOXES_PER_OUTING } from "@/shared/schemas/draw";
import { seatsPath } from "./draft-values";
import { faultWords } from "./fault-words";
import { GroupingField } from "./grouping-field";

const words = leadMessages.make;

export interface RegionChoice {
  readonly id: string;
  readonly name: string;
  readonly south: number;
  readonly west: number;
  readonly north: number;
  readonly east: number;
}

interface Props {
  readonly action: (previous: FormState, form: FormData) => Promise<FormState>;
  readonly submit: string;
  readonly regions: readonly RegionChoice[];
  /** What stands in the fields at first, by their names. */
  readonly values?: Readonly<Record<string, string>>;
  /** Of a draft that is there already. */
  readonly trialId?: string;
}

/** What a trial says but for its recipes: for a new draft, or one that is changed. */
export function DraftForm({ action, submit, regions, values, trialId }: Props) {
  return (
    <ActionForm action={action} words={leadMessages.outcomes} submit={submit}>
      {(answered) => {
        const state = answered.values ? answered : { ...answered, values };
        return (
          <>
            {trialId ? <input type="hidden" name="trialId" value={trialId} /> : null}
            <PlanFields state={state} />
            <h2 className="mt-8 mb-2">{words.groups}</h2>
            <p className="mb-4 max-w-[44em]">{words.groupsLead}</p>
            <GroupingField state={state} kept={trialId !== undefined} />
            <RegionFields state={state} regions={regions} />
          </>
        );
      }}
    </ActionForm>
  );
}

function RegionFields({ state, regions }: { state: FormState; regions: readonly RegionChoice[] }) {
  const errorOf = (regionId: string) => {
    const path = seatsPath(state.values ?? {}, regionId);
    return path === null ? undefined : faultWords(state, path);
  };
  return (
    <>
      <h2 id="regions" className="mt-8 mb-2">
        {words.regions}
      </h2>
      <p className="mb-4 max-w-[44em]">{regions.length > 0 ? words.regionsLead : words.noRegions}</p>
      <FieldNotes id="regions" error={state.fields?.regions && faultWords(state, "regions")} />
      {regions.map(({ id, name, south, north, west, east }) => (
        <NumberField
          key={id}
          name={`seats.${id}`}
          label={words.seats(name)}
          hint={words.extent(south, north, west, east)}
          min={1}
          step={1}
          inputMode="numeric"
          defaultValue={state.values?.[`seats.${id}`]}
          error={errorOf(id)}
        />
      ))}
      <NewRegion state={state} isFirst={regions.length === 0} />
    </>
  );
}

function PlanFields({ state }: { state: FormState }) {
  const text = (name: string) => ({
    name,
    defaultValue: state.values?.[name],
    error: faultWords(state, name),
  });
  const boxes = {
    min: BOXES_PER_OUTING.min,
    max: BOXES_PER_OUTING.max,
    step: 1,
    inputMode: "numeric",
  } as const;
  return (
    <>
      <TextField {...text("title")} label={words.name} required maxLength={80} />
      <TextAreaField
        {...text("question")}
        label={words.question}
        hint={words.questionHint}
        rows={3}
        required
        maxLength={300}
      />
      <NumberField {...text("boxesMin")} {...boxes} label={words.boxesMin} hint={words.boxesHint} required />
      <NumberField {...text("boxesMax")} {...boxes} label={words.boxesMax} required />
      <TextField {...text("endsOn")} type="date" label={words.endsOn} hint={words.endsOnHint} required />
    </>
  );
}

const EDGES = ["south", "north", "west", "east"] as const;

/** Folded away where regions to choose from stand above and nothing of a further one was typed. */
function NewRegion({ state, isFirst }: { state: FormState; isFirst: boolean }) {
  const isTyped = Object.entries(state.values ?? {}).some(
    ([name, value]) => name.startsWith("region.") && value.trim() !== "",
  );
  const field = (name: string) => ({
    name: `region.${name}`,
    defaultValue: state.values?.[`region.${name}`],
    error: faultWords(state, `newRegion.${name}`),
  });
  return (
    <details open={isFirst || isTyped} className="mb-6">
      <summary className="min-h-[44px] cursor-pointer py-2 font-semibold">{words.newRegion}</summary>
      <fieldset>
        <legend className="sr-only">{words.newRegion}</legend>
        <p className="mb-4 max-w-[44em] text-quiet">{words.newRegionLead}</p>
        <TextField {...field("name")} label={words.regionName} maxLength={60} />
        {EDGES.map((edge) => (
          <NumberField
            key={edge}
            {...field(edge)}
            label={words[edge]}
            unit={words.degrees}
            inputMode="text"
          />
        ))}
        <NumberField {...field("capacity")} label={words.capacity} min={1} step={1} inputMode="numeric" />
      </fieldset>
    </details>
  );
}
