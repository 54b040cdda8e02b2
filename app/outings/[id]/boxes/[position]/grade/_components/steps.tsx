"use client";

import { BoxGlyph } from "@/lib/ui/components/box-glyph";
import { Button } from "@/lib/ui/components/button";
import { Caution } from "@/lib/ui/components/caution";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { MomentField } from "@/lib/ui/components/moment-field";
import { NumberField } from "@/lib/ui/components/number-field";
import { TextField } from "@/lib/ui/components/text-field";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { NOTE_MAX_LENGTH } from "@/shared/schemas/box-event";
import {
  GROWTH_DEPTHS,
  OFF_COLOURS,
  TAKE_CLASSES,
  UNMEASURED,
  WARMTH,
  WETNESS,
} from "@/shared/vocabulary/growth";
import type { GradeDraft } from "./draft";
import { MeasureField } from "./measure-field";

const words = growingMessages.grade;

interface StepProps {
  readonly draft: GradeDraft;
  readonly change: (part: Partial<GradeDraft>) => void;
}

const unmeasuredOptions = UNMEASURED.map((value) => ({ value, label: vocabularyMessages.unmeasured[value] }));

export function CautionStep({ draft, change, isOpened }: StepProps & { isOpened: boolean }) {
  return (
    <>
      <Caution>
        {words.caution.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </Caution>
      {isOpened ? null : (
        <MomentField
          name="openedAt"
          label={words.openedAt}
          hint={words.openedAtHint}
          value={draft.openedAt}
          onChange={(openedAt) => change({ openedAt })}
        />
      )}
    </>
  );
}

export function CoverStep({ draft, change }: StepProps) {
  return (
    <>
      <ChoiceField
        name="coverClass"
        legend={<span className="sr-only">{words.coverQuestion}</span>}
        value={draft.coverClass}
        onChange={(event) => change({ coverClass: event.target.value })}
        options={[
          ...TAKE_CLASSES.map((take) => ({
            value: String(take),
            label: vocabularyMessages.growth[take].name,
            hint: vocabularyMessages.growth[take].range,
            picture: <BoxGlyph state={take} />,
          })),
          ...unmeasuredOptions,
        ]}
      />
      <NumberField
        name="coverPercent"
        label={words.coverPercent}
        hint={words.coverPercentHint}
        unit={words.percentUnit}
        min={0}
        max={100}
        value={draft.coverPercent}
        onChange={(event) => change({ coverPercent: event.target.value })}
      />
    </>
  );
}

export function ColoursStep({ draft, change }: StepProps) {
  const none = Object.fromEntries(OFF_COLOURS.map((colour) => [colour, { text: "0", why: "" }]));
  return (
    <>
      <p className="mb-3 text-quiet">{words.coloursHint}</p>
      <p className="mb-5">
        <Button type="button" kind="quiet" onClick={() => change({ colours: none as GradeDraft["colours"] })}>
          {words.noneOfAll}
        </Button>
      </p>
      {OFF_COLOURS.map((colour) => (
        <MeasureField
          key={colour}
          label={vocabularyMessages.offColour[colour]}
          unit={words.percentUnit}
          value={draft.colours[colour]}
          onChange={(value) => change({ colours: { ...draft.colours, [colour]: value } })}
        />
      ))}
    </>
  );
}

const FEEL = [
  { name: "depth", list: GROWTH_DEPTHS, names: vocabularyMessages.depth },
  { name: "wetness", list: WETNESS, names: vocabularyMessages.wetness },
  { name: "warmth", list: WARMTH, names: vocabularyMessages.warmth },
] as const;

export function FeelStep({ draft, change }: StepProps) {
  return FEEL.map(({ name, list, names }) => (
    <ChoiceField
      key={name}
      name={name}
      legend={words[name]}
      value={draft[name]}
      onChange={(event) => change({ [name]: event.target.value })}
      options={[
        ...list.map((value) => ({ value, label: (names as Readonly<Record<string, string>>)[value] })),
        ...unmeasuredOptions,
      ]}
    />
  ));
}

export function GramsStep({ draft, change }: StepProps) {
  return (
    <>
      <p className="mb-3 text-quiet">{words.gramsHint}</p>
      <MeasureField
        label={words.usable}
        unit={words.grams}
        value={draft.usable}
        onChange={(usable) => change({ usable })}
      />
      <MeasureField
        label={words.total}
        unit={words.grams}
        value={draft.total}
        onChange={(total) => change({ total })}
      />
    </>
  );
}

export function NoteStep({ draft, change }: StepProps) {
  return (
    <TextField
      name="note"
      label={words.note}
      hint={words.noteHint}
      maxLength={NOTE_MAX_LENGTH}
      value={draft.note}
      onChange={(event) => change({ note: event.target.value })}
    />
  );
}
