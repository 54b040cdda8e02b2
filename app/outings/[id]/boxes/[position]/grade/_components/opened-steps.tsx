import type { PhotoView } from "@/lib/services/growing/photos";
import { BoxGlyph } from "@/lib/ui/components/box-glyph";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { GrowthPicture } from "@/lib/ui/components/growth-pictures";
import { MomentField } from "@/lib/ui/components/moment-field";
import { NumberField } from "@/lib/ui/components/number-field";
import { PhotoField } from "@/lib/ui/components/photo-field";
import { typedNumber } from "@/lib/ui/form-numbers";
import { growthMessages } from "@/lib/ui/messages/en/growth";
import { openedMessages } from "@/lib/ui/messages/en/opened-box";
import { recordingMessages } from "@/lib/ui/messages/en/recording";
import { GROWTH_DEPTHS, TAKE_CLASSES, WETNESS } from "@/shared/vocabulary/growth";
import { ColoursStep } from "./colours-step";
import type { Step } from "./draft";
import { inputId } from "./faults";
import { FinishStep } from "./finish-step";
import { MeasureChoice, type StepProps, unmeasuredOptions } from "./measure-choice";
import { MeasureField } from "./measure-field";

const words = openedMessages;

export interface OpenStepProps {
  readonly boxId: string;
  /** Whether an hour of opening is on record. */
  readonly isOpened: boolean;
  /** Pictures sent before. */
  readonly photos: readonly PhotoView[];
}

interface OpenedProps extends StepProps, OpenStepProps {
  readonly step: Exclude<Step, "before" | "warmth">;
}

/** The question of the opened box that is due, or the overview. */
export function OpenedStep({ step, ...props }: OpenedProps) {
  switch (step) {
    case "open":
      return <OpenStep {...props} />;
    case "cover":
      return <CoverStep {...props} />;
    case "colours":
      return <ColoursStep {...props} />;
    case "depth":
      return <DepthStep {...props} />;
    case "wetness":
      return <WetnessStep {...props} />;
    case "weights":
      return <WeightsStep {...props} />;
    case "finish":
      return <FinishStep {...props} />;
  }
}

function OpenStep({ draft, change, boxId, isOpened, photos }: StepProps & OpenStepProps) {
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
      <PhotoField
        purpose="opened"
        of={boxId}
        label={words.pictures}
        hint={words.picturesHint}
        photos={photos}
      />
    </>
  );
}

function CoverStep({ draft, change, errorOf }: StepProps) {
  return (
    <>
      <ChoiceField
        name="coverClass"
        legend={<span className="sr-only">{recordingMessages.record.question.cover}</span>}
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

function DepthStep(step: StepProps) {
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

function WetnessStep(step: StepProps) {
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

function WeightsStep({ draft, change, errorOf }: StepProps) {
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
