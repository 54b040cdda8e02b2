import type { ReactNode } from "react";

export interface FieldWords {
  readonly label: ReactNode;
  readonly hint?: ReactNode;
  /** Words, not a code; shown and tied to the input. */
  readonly error?: ReactNode;
}

export const INPUT_LOOK =
  "block w-full min-h-[52px] rounded-[5px] border-2 border-ink bg-ground px-3 text-ink aria-invalid:border-due";

/** Which elements describe the input `id`, for aria-describedby. */
export function describedBy(id: string, words: Pick<FieldWords, "hint" | "error">): string | undefined {
  const ids = [words.hint ? `${id}-hint` : "", words.error ? `${id}-error` : ""].filter(Boolean);
  return ids.length > 0 ? ids.join(" ") : undefined;
}

/** Hint and error of the input `id`. */
export function FieldNotes({ id, hint, error }: { id: string; hint?: ReactNode; error?: ReactNode }) {
  return (
    <>
      {hint ? (
        <p id={`${id}-hint`} className="mb-1 text-[0.9375rem] text-quiet">
          {hint}
        </p>
      ) : null}
      {error ? (
        <p id={`${id}-error`} data-fault-of={id} className="mb-1 font-semibold text-due">
          {error}
        </p>
      ) : null}
    </>
  );
}

/** Label, hint and error around one input. */
export function Field({
  id,
  label,
  hint,
  error,
  children,
}: FieldWords & { id: string; children: ReactNode }) {
  return (
    <div className="mb-5 max-w-[30em]">
      <label htmlFor={id} className="mb-1 block font-semibold">
        {label}
      </label>
      <FieldNotes id={id} hint={hint} error={error} />
      {children}
    </div>
  );
}
