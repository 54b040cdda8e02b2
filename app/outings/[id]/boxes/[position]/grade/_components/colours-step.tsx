import { CheckField } from "@/lib/ui/components/check-field";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { GrowthPicture } from "@/lib/ui/components/growth-pictures";
import { growthMessages } from "@/lib/ui/messages/en/growth";
import { openedMessages } from "@/lib/ui/messages/en/opened-box";
import { recordingMessages } from "@/lib/ui/messages/en/recording";
import { OFF_COLOURS, type OffColour } from "@/shared/vocabulary/growth";
import type { GradeDraft } from "./draft";
import { inputId } from "./faults";
import { type StepProps, unmeasuredOptions } from "./measure-choice";
import { MeasureField } from "./measure-field";

const words = openedMessages;

/** First whether there is any other colour; only then which, and how much of each. */
export function ColoursStep(step: StepProps) {
  const { draft, change } = step;
  return (
    <>
      <p className="mb-3 max-w-[38em] text-quiet">{words.coloursHint}</p>
      <ChoiceField
        name="otherColour"
        legend={<span className="sr-only">{recordingMessages.record.question.colours}</span>}
        value={draft.otherColour}
        onChange={(event) => change({ otherColour: event.target.value as GradeDraft["otherColour"] })}
        options={[
          { value: "none", label: words.noOther },
          { value: "some", label: words.someOther },
          ...unmeasuredOptions,
        ]}
      />
      {draft.otherColour === "some" ? (
        <fieldset className="max-w-[44em]">
          <legend className="mb-1 font-semibold">{words.whichColours}</legend>
          <p className="mb-2 text-[0.9375rem] text-quiet">{words.whichColoursHint}</p>
          {OFF_COLOURS.map((colour) => (
            <Colour key={colour} colour={colour} {...step} />
          ))}
        </fieldset>
      ) : null}
    </>
  );
}

function Colour({ colour, draft, change, errorOf }: StepProps & { colour: OffColour }) {
  const isSeen = draft.seen.includes(colour);
  const name = growthMessages.offColour[colour];
  return (
    <div className="mb-3 grid grid-cols-[7rem_1fr] items-center gap-x-4 border-b border-line pb-3">
      <GrowthPicture of={colour} />
      <CheckField
        name={`seen-${colour}`}
        label={<span className="font-bold first-letter:uppercase">{name}</span>}
        checked={isSeen}
        onChange={() =>
          change({ seen: isSeen ? draft.seen.filter((each) => each !== colour) : [...draft.seen, colour] })
        }
      />
      {isSeen ? (
        <div className="col-span-2">
          <MeasureField
            id={inputId(colour)}
            label={words.howMuchOf(name)}
            unit={words.percentUnit}
            error={errorOf(colour)}
            value={draft.colours[colour]}
            onChange={(value) => change({ colours: { ...draft.colours, [colour]: value } })}
          />
        </div>
      ) : null}
    </div>
  );
}
