import { type ComponentProps, useId } from "react";
import { describedBy, Field, type FieldWords, INPUT_LOOK } from "./field";

type Props = FieldWords & { name: string } & Omit<ComponentProps<"input">, "name">;

export function TextField({ label, hint, error, id, className, ...input }: Props) {
  const ownId = useId();
  const inputId = id ?? ownId;
  return (
    <Field id={inputId} label={label} hint={hint} error={error}>
      <input
        id={inputId}
        type="text"
        className={className ? `${INPUT_LOOK} ${className}` : INPUT_LOOK}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(inputId, { hint, error })}
        {...input}
      />
    </Field>
  );
}
