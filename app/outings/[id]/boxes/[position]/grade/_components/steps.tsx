import { lazy, type ReactNode, Suspense } from "react";
import type { PhotoView } from "@/lib/services/growing/photos";
import { BoxGlyph } from "@/lib/ui/components/box-glyph";
import { Caution } from "@/lib/ui/components/caution";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { GrowthPicture } from "@/lib/ui/components/growth-pictures";
import { MomentField } from "@/lib/ui/components/moment-field";
import { NumberField } from "@/lib/ui/components/number-field";
import { typedNumber } from "@/lib/ui/form-numbers";
import { growthMessages } from "@/lib/ui/messages/en/growth";
import { recordingMessages } from "@/lib/ui/messages/en/recording";
import { GROWTH_DEPTHS, TAKE_CLASSES, UNMEASURED, WARMTH, WETNESS } from "@/shared/vocabulary/growth";
import type { GradeDraft } from "./draft";
import { inputId, type NumberField as NumberName } from "./faults";
import { MeasureField } from "./measure-field";

const words = recordingMessages.record;

/** Taking pictures comes after the page, so that the questions stand sooner; never without signal. */
export const loadPhotoField = () =>
  import("@/lib/ui/components/photo-field").then(
    ({ PhotoField }) => ({ default: PhotoField }),
    () => ({ default: NoPictures }),
  );
const LaterPhotoField = lazy(loadPhotoField);

function NoPictures() {
  return <p className="mb-5 text-quiet">{words.noPictures}</p>;
}

export interface StepProps {
  readonly draft: GradeDraft;
  readonly change: (part: Partial<GradeDraft>) => void;
  /** What is wrong with a number, in words. */
  readonly errorOf: (field: NumberName) => string | undefined;
}

/** Why there is no answer, below the answers. */
export const unmeasuredOptions = UNMEASURED.map((value, i) => ({
  value,
  label: growthMessages.unmeasured[value],
  startsRow: i === 0,
}));

export function BeforeStep() {
  return (
    <Caution>
      {words.caution.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </Caution>
  );
}

interface ChoiceProps<Value extends string> {
  readonly name: "warmth" | "depth" | "wetness";
  readonly list: readonly Value[];
  readonly names: Readonly<Record<Value, string>>;
  readonly picture?: (value: Value) => ReactNode;
}

/** One of a list, or why not; the step's question is its legend. */
function MeasureChoice<Value extends string>(props: StepProps & ChoiceProps<Value>) {
  const { draft, change, name, list, names, picture } = props;
  return (
    <ChoiceField
      name={name}
      legend={<span className="sr-only">{words.question[name]}</span>}
      value={draft[name]}
      onChange={(event) => change({ [name]: event.target.value })}
      options={[
        ...list.map((value) => ({ value, label: names[value], picture: picture?.(value) })),
        ...unmeasuredOptions,
      ]}
    />
  );
}

export function WarmthStep(step: StepProps) {
  return (
    <>
      <p className="mb-3 text-quiet">{words.warmthHint}</p>
      <MeasureChoice {...step} name="warmth" list={WARMTH} names={growthMessages.warmth} />
    </>
  );
}

export function DepthStep(step: StepProps) {
  return (
    <MeasureChoice
      {...step}
      name="depth"
      list={GROWTH_DEPTHS}
      names={growthMessages.depth}
      picture={(value) => <GrowthPicture of={value} />}
    />
  );
}

export function WetnessStep(step: StepProps) {
  return (
    <MeasureChoice
      {...step}
      name="wetness"
      list={WETNESS}
      names={growthMessages.wetness}
      picture={(value) => <GrowthPicture of={value} />}
    />
  );
}

export interface OpenStepProps {
  readonly boxId: string;
  /** Whether an hour of opening is on record. */
  readonly isOpened: boolean;
  /** Pictures sent before; null for somebody who may not send any. */
  readonly photos: readonly PhotoView[] | null;
}

export function OpenStep({ draft, change, boxId, isOpened, photos }: StepProps & OpenStepProps) {
  return (
    <>
      <p className="mb-4 max-w-[38em]">{words.openHow}</p>
      {isOpened ? (
        <p className="mb-4 text-quiet">{words.openedKnown}</p>
      ) : (
        <MomentField
          name="openedAt"
          label={words.openedAt}
          hint={words.openedAtHint}
          value={draft.openedAt}
          onChange={(openedAt) => change({ openedAt })}
        />
      )}
      {photos ? (
        <Suspense>
          <LaterPhotoField
            purpose="opened"
            of={boxId}
            label={words.pictures}
            hint={words.picturesHint}
            photos={photos}
          />
        </Suspense>
      ) : null}
    </>
  );
}

export function CoverStep({ draft, change, errorOf }: StepProps) {
  return (
    <>
      <ChoiceField
        name="coverClass"
        legend={<span className="sr-only">{words.question.cover}</span>}
        value={draft.coverClass}
        onChange={(event) => change({ coverClass: event.target.value })}
        options={[
          ...TAKE_CLASSES.map((take) => ({
            value: String(take),
            label: growthMessages.growth[take].name,
            hint: growthMessages.growth[take].range,
            picture: <BoxGlyph state={take} />,
          })),
          ...unmeasuredOptions,
        ]}
      />
      <NumberField
        id={inputId("cover")}
        name="coverPercent"
        label={words.coverPercent}
        hint={words.coverPercentHint}
        error={errorOf("cover")}
        unit={words.percentUnit}
        value={draft.coverPercent}
        onChange={(event) => change({ coverPercent: event.target.value })}
      />
    </>
  );
}

export function WeightsStep({ draft, change, errorOf }: StepProps) {
  const thrownAway = typedNumber(draft.total.text) - typedNumber(draft.usable.text);
  return (
    <>
      <p className="mb-3 max-w-[38em] text-quiet">{words.weightsHint}</p>
      <MeasureField
        id={inputId("total")}
        label={words.total}
        unit={words.grams}
        error={errorOf("total")}
        value={draft.total}
        onChange={(total) => change({ total })}
      />
      <MeasureField
        id={inputId("usable")}
        label={words.usable}
        unit={words.grams}
        error={errorOf("usable")}
        value={draft.usable}
        onChange={(usable) => change({ usable })}
      />
      <p role="status" className="mb-4">
        {thrownAway >= 0 ? words.thrownAway(thrownAway) : null}
      </p>
    </>
  );
}
