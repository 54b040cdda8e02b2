import { type ComponentProps, useId } from "react";
import { describedBy, Field, type FieldWords, INPUT_LOOK } from "./field";

type Props = FieldWords & { name: string; unit?: string } & Omit<ComponentProps<"input">, "name" | "type">;

/**
 * A number typed by hand, big enough for gloves, with its unit beside it. A text input to the browser: a number input
 * loses a decimal comma, and what can't be read should stay to be mended. Keypads for decimals may lack a minus; where
 * one is needed pass `inputMode="text"`.
 */
export function NumberField({ label, hint, error, unit, id, className, ...input }: Props) {
  const ownId = useId();
  const inputId = id ?? ownId;
  const look = `${INPUT_LOOK} max-w-[8em] text-[1.375rem] font-semibold tabular-nums`;
  return (
    <Field id={inputId} label={label} hint={hint} error={error}>
      <span className="flex items-center gap-2.5">
        <input
          id={inputId}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          className={className ? `${look} ${className}` : look}
          aria-invalid={error ? true : undefined}
          aria-describedby={describedBy(inputId, { hint, error })}
          {...input}
        />
        {unit ? <span>{unit}</span> : null}
      </span>
    </Field>
  );
}
