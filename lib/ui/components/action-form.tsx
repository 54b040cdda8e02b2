"use client";

import { type ReactNode, useActionState } from "react";
import type { FormState } from "../form-state";
import { Button } from "./button";
import { Notice } from "./notice";

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
  const [state, send, pending] = useActionState(action, {});
  return (
    <form action={send}>
      {state.error ? <Notice kind="due">{words[state.error] ?? state.error}</Notice> : null}
      {state.done ? <Notice kind="ok">{words[state.done] ?? state.done}</Notice> : null}
      {children?.(state)}
      <Button kind={kind} disabled={pending}>
        {submit}
      </Button>
    </form>
  );
}
