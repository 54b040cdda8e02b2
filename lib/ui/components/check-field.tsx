import { type ComponentProps, useId } from "react";
import { describedBy, FieldNotes, type FieldWords } from "./field";

type Props = FieldWords & { name: string } & Omit<ComponentProps<"input">, "name" | "type">;

/** One yes or no. */
export function CheckField({ label, hint, error, id, ...input }: Props) {
  const ownId = useId();
  const inputId = id ?? ownId;
  return (
    <div className="mb-4 max-w-[38em]">
      <label htmlFor={inputId} className="flex min-h-[44px] items-start gap-3 py-2">
        <input
          id={inputId}
          type="checkbox"
          className="mt-0.5 size-6 shrink-0 accent-act"
          aria-invalid={error ? true : undefined}
          aria-describedby={describedBy(inputId, { hint, error })}
          {...input}
        />
        <span>{label}</span>
      </label>
      <FieldNotes id={inputId} hint={hint} error={error} />
    </div>
  );
}
