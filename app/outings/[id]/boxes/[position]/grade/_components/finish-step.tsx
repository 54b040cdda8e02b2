import { TextField } from "@/lib/ui/components/text-field";
import { openedMessages } from "@/lib/ui/messages/en/opened-box";
import { NOTE_MAX_LENGTH } from "@/shared/vocabulary/text";
import { answersOf } from "./answers";
import type { StepProps } from "./measure-choice";
import { measuresOf } from "./measures";

const words = openedMessages;

/** Everything that was answered, each with a way back to its question, and room for own words. */
export function FinishStep({ draft, change }: StepProps) {
  return (
    <>
      <dl className="mb-6 max-w-[44em]">
        {answersOf(measuresOf(draft)).map(({ label, value, step }) => (
          <div key={label} className="grid grid-cols-[1fr_auto] items-center gap-x-3 border-b border-line">
            <dt className="pt-1.5 text-quiet">{label}</dt>
            <dd className="col-start-1 pb-1.5 font-semibold first-letter:uppercase">{value}</dd>
            <dd className="col-start-2 row-span-2 row-start-1">
              <button
                type="button"
                className="min-h-[44px] px-2 text-act underline underline-offset-[0.15em]"
                aria-label={words.changeLabel(label)}
                onClick={() => change({ step })}
              >
                {words.change}
              </button>
            </dd>
          </div>
        ))}
      </dl>
      <TextField
        name="note"
        label={words.note}
        hint={words.noteHint}
        maxLength={NOTE_MAX_LENGTH}
        value={draft.note}
        onChange={(event) => change({ note: event.target.value })}
      />
    </>
  );
}
