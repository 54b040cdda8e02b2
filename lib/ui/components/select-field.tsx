import { type ComponentProps, useId } from "react";
import { describedBy, Field, type FieldWords, INPUT_LOOK } from "./field";

export interface SelectOption {
  readonly value: string;
  readonly label: string;
}

type Props = FieldWords & { name: string; options: readonly SelectOption[] } & Omit<
    ComponentProps<"select">,
    "name" | "children"
  >;

/** One of many. For an answer that may stay open, give an option with the value "". */
export function SelectField({ label, hint, error, options, id, className, ...select }: Props) {
  const ownId = useId();
  const selectId = id ?? ownId;
  return (
    <Field id={selectId} label={label} hint={hint} error={error}>
      <select
        key={String(select.defaultValue)} // an answered form is reset, and React resets a select to its first default
        id={selectId}
        className={className ? `${INPUT_LOOK} ${className}` : INPUT_LOOK}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(selectId, { hint, error })}
        {...select}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </Field>
  );
}
