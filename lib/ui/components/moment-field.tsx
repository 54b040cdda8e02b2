"use client";

import { useId } from "react";
import { describedBy, Field, type FieldWords, INPUT_LOOK } from "./field";

type Props = FieldWords & { name: string; value: string; onChange: (local: string) => void };

/** A day and an hour on this device's clock; empty where nobody knows. */
export function MomentField({ label, hint, error, name, value, onChange }: Props) {
  const id = useId();
  return (
    <Field id={id} label={label} hint={hint} error={error}>
      <input
        id={id}
        name={name}
        type="datetime-local"
        className={INPUT_LOOK}
        value={value}
        onChange={(event) => onChange(event.target.value)}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(id, { hint, error })}
      />
    </Field>
  );
}
