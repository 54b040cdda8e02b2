"use client";

import type { ReactNode } from "react";
import type { FormState } from "../form-state";
import { Button } from "./button";
import { FormAnswer } from "./form-answer";
import { useFormAction } from "./use-form-action";

interface Props {
  readonly action: (previous: FormState, form: FormData) => Promise<FormState>;
  /** Words for the codes of `error` and `done`. */
  readonly words: Readonly<Record<string, string>>;
  readonly submit: string;
  readonly kind?: "main" | "quiet";
  readonly children?: (state: FormState) => ReactNode;
}

/** A form answered by a server action: says what came of it, and holds its button while it is on its way. */
export function ActionForm({ action, words, submit, kind, children }: Props) {
  const [state, form, pending] = useFormAction(action);
  return (
    <form {...form}>
      <FormAnswer state={state} words={words} />
      {children?.(state)}
      <Button kind={kind} disabled={pending}>
        {submit}
      </Button>
    </form>
  );
}
