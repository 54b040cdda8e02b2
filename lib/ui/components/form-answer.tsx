"use client";

import { useEffect, useRef } from "react";
import type { FormState } from "../form-state";
import { FaultSummary, type NamedFault } from "./fault-summary";
import { Notice } from "./notice";

interface Props {
  readonly state: FormState;
  /** Words for the codes of `error` and `done`. */
  readonly words: Readonly<Record<string, string>>;
  /** The fields at fault, each a way to it. */
  readonly faults?: readonly NamedFault[];
}

/** What came of sending a form. What is wrong with it takes focus, so that nobody has to look for it. */
export function FormAnswer({ state, words, faults = [] }: Props) {
  const fault = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (state.error) fault.current?.focus();
  }, [state]);
  if (state.error) {
    return (
      <div ref={fault} tabIndex={-1}>
        <Notice kind="due">{words[state.error] ?? state.error}</Notice>
        <FaultSummary faults={faults} />
      </div>
    );
  }
  return state.done ? <Notice kind="ok">{words[state.done] ?? state.done}</Notice> : null;
}
