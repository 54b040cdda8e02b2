"use client";

import { type ReactNode, useActionState } from "react";
import type { FormState } from "../form-state";
import { Button } from "./button";
import type { NamedFault } from "./fault-summary";
import { FormAnswer } from "./form-answer";

interface Props {
  readonly action: (previous: FormState, form: FormData) => Promise<FormState>;
  /** Words for the codes of `error` and `done`. */
  readonly words: Readonly<Record<string, string>>;
  readonly submit: string;
  readonly kind?: "main" | "quiet";
  /** The fields at fault, for the summary to lead to. */
  readonly faults?: (state: FormState) => readonly NamedFault[];
  readonly children?: (state: FormState) => ReactNode;
}

/** A form answered by a server action: says what came of it, and holds its button while it is on its way. */
export function ActionForm({ action, words, submit, kind, faults, children }: Props) {
  const [state, send, pending] = useActionState(action, {});
  return (
    <form action={send}>
      <FormAnswer state={state} words={words} faults={faults?.(state)} />
      {children?.(state)}
      <Button kind={kind} disabled={pending}>
        {submit}
      </Button>
    </form>
  );
}
