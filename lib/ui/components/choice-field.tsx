import { type ComponentProps, type ReactNode, useId } from "react";
import { describedBy, FieldNotes } from "./field";

export interface ChoiceOption {
  readonly value: string;
  readonly label: ReactNode;
  readonly hint?: ReactNode;
  /** Decorative: the label says the same in words. */
  readonly picture?: ReactNode;
  /** Begins a row of its own, as what is no answer does below the answers. */
  readonly startsRow?: boolean;
}

type Props = {
  name: string;
  legend: ReactNode;
  hint?: ReactNode;
  error?: ReactNode;
  options: readonly ChoiceOption[];
  /** The chosen option of a controlled field. */
  value?: string;
  defaultValue?: string;
  /** One below the other, for options that take a sentence. */
  stacked?: boolean;
  /** Of the whole field. */
  id?: string;
} & Omit<ComponentProps<"input">, "name" | "type" | "value" | "defaultValue" | "id">;

/** One of a few as tiles, two to a row on a phone. Nothing is chosen beforehand unless `defaultValue` says so. */
export function ChoiceField({
  legend,
  hint,
  error,
  options,
  value,
  defaultValue,
  stacked,
  id: givenId,
  ...input
}: Props) {
  const ownId = useId();
  const id = givenId ?? ownId;
  return (
    <fieldset id={id} className="mb-5 max-w-[44em]" aria-describedby={describedBy(id, { hint, error })}>
      <legend className="mb-1 font-semibold">{legend}</legend>
      <FieldNotes id={id} hint={hint} error={error} />
      <div className={stacked ? "grid gap-2.5" : "grid grid-cols-2 gap-2.5 sm:grid-cols-3"}>
        {options.map((option) => (
          <label
            key={option.value}
            className={`block min-h-[44px] cursor-pointer rounded-[5px] border-2 border-edge p-2.5 has-checked:border-act has-checked:outline-3 has-checked:-outline-offset-3 has-checked:outline-act has-focus-visible:ring-3 has-focus-visible:ring-focus ${option.startsRow ? "col-start-1" : ""}`}
          >
            {option.picture ? <span className="mb-1 block">{option.picture}</span> : null}
            <span className="flex items-start gap-2">
              <input
                type="radio"
                value={option.value}
                className="size-5 shrink-0 accent-act"
                aria-invalid={error ? true : undefined}
                {...(value === undefined
                  ? { defaultChecked: option.value === defaultValue }
                  : { checked: option.value === value })}
                {...input}
              />
              <span>
                <span className="block font-bold leading-tight first-letter:uppercase">{option.label}</span>
                {option.hint ? (
                  <span className="block text-[0.9375rem] text-quiet">{option.hint}</span>
                ) : null}
              </span>
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
