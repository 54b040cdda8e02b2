import { type ComponentProps, useId } from "react";
import { describedBy, Field, type FieldWords, INPUT_LOOK } from "./field";

type Props = FieldWords & { name: string } & Omit<ComponentProps<"textarea">, "name">;

/** Words over several lines. */
export function TextAreaField({ label, hint, error, id, className, ...input }: Props) {
  const ownId = useId();
  const inputId = id ?? ownId;
  const look = `${INPUT_LOOK} py-2`;
  return (
    <Field id={inputId} label={label} hint={hint} error={error}>
      <textarea
        id={inputId}
        rows={4}
        className={className ? `${look} ${className}` : look}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(inputId, { hint, error })}
        {...input}
      />
    </Field>
  );
}
