import { describedBy, FieldNotes, INPUT_LOOK } from "@/lib/ui/components/field";
import { growthMessages } from "@/lib/ui/messages/en/growth";
import { openedMessages } from "@/lib/ui/messages/en/opened-box";
import { UNMEASURED, type Unmeasured } from "@/shared/vocabulary/growth";
import type { TypedMeasure } from "./draft";

interface Props {
  /** Of the number. */
  readonly id: string;
  readonly label: string;
  readonly unit: string;
  readonly error: string | undefined;
  readonly value: TypedMeasure;
  readonly onChange: (value: TypedMeasure) => void;
}

/** A number, or why there is none; neither is preset and neither is needed. */
export function MeasureField({ id, label, unit, error, value, onChange }: Props) {
  return (
    <fieldset className="mb-5 max-w-[38em]">
      <legend className="mb-1 font-semibold first-letter:uppercase">{label}</legend>
      <FieldNotes id={id} error={error} />
      <div className="flex flex-wrap items-center gap-2.5">
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          className={`${INPUT_LOOK} max-w-[6em] text-[1.375rem] font-semibold tabular-nums`}
          aria-label={`${label}, ${unit}`}
          aria-invalid={error ? true : undefined}
          aria-describedby={describedBy(id, { error })}
          value={value.text}
          onChange={(event) => onChange({ text: event.target.value, why: "" })}
        />
        <span aria-hidden="true">{unit}</span>
        <select
          className={`${INPUT_LOOK} max-w-[10em]`}
          aria-label={`${label}: ${openedMessages.unanswered}`}
          value={value.why}
          onChange={(event) => onChange({ text: "", why: event.target.value as Unmeasured | "" })}
        >
          <option value="">{value.text === "" ? openedMessages.unanswered : openedMessages.answered}</option>
          {UNMEASURED.map((why) => (
            <option key={why} value={why}>
              {growthMessages.unmeasured[why]}
            </option>
          ))}
        </select>
      </div>
    </fieldset>
  );
}
