"use client";

import { useEffect, useRef, useState } from "react";
import { type FormState, SIGNED_OUT } from "../form-state";
import { formMessages } from "../messages/en/forms";
import { FaultSummary, type NamedFault } from "./fault-summary";
import { Notice } from "./notice";

interface Props {
  readonly state: FormState;
  /** Words for the codes of `error` and `done`. */
  readonly words: Readonly<Record<string, string>>;
}

/**
 * What came of sending a form. What is wrong with it takes focus, so that nobody has to look for it, and names each
 * field at fault, in the words that stand at the field.
 */
export function FormAnswer({ state, words }: Props) {
  const refusal = useRef<HTMLDivElement>(null);
  const [faults, setFaults] = useState<readonly NamedFault[]>([]);
  useEffect(() => {
    if (!isRefused(state) || !refusal.current) return;
    const form = refusal.current.closest("form")!;
    unfold(form);
    setFaults(faultsShownIn(form));
    refusal.current.focus();
  }, [state]);
  if (isRefused(state)) {
    return (
      <div ref={refusal} tabIndex={-1}>
        <Notice kind="due">
          {refusalWords(state.error, words)}
          {state.error === SIGNED_OUT.error ? <SignInLink /> : null}
        </Notice>
        <FaultSummary faults={faults} />
      </div>
    );
  }
  return state.done ? <Notice kind="ok">{words[state.done] ?? state.done}</Notice> : null;
}

function SignInLink() {
  return (
    <a href="/sign-in" target="_blank" rel="noreferrer" className="block">
      {formMessages.signedOut.link}
    </a>
  );
}

const isRefused = ({ error, fields }: FormState): boolean => error !== undefined || fields !== undefined;

function refusalWords(error: string | undefined, words: Props["words"]): string {
  if (error === undefined) return `${formMessages.invalid.title} ${formMessages.invalid.detail}`;
  if (error === SIGNED_OUT.error) return formMessages.signedOut.words;
  return error === "NO_SIGNAL" ? formMessages.noSignal : (words[error] ?? error);
}

/** Opens what a form is folded into, and parts of it that hold something wrong. */
function unfold(form: HTMLFormElement): void {
  const around = form.closest("details");
  if (around) around.open = true;
  for (const part of form.querySelectorAll("details")) {
    if (part.querySelector("[data-fault-of]")) part.open = true;
  }
}

/** What the fields of a form, or headings over several, say is wrong with them (`FieldNotes`), in their order. */
function faultsShownIn(form: HTMLFormElement): NamedFault[] {
  return [...form.querySelectorAll<HTMLElement>("[data-fault-of]")].map((fault) => {
    const inputId = fault.dataset.faultOf!;
    const field = document.getElementById(inputId) as HTMLInputElement;
    const label = field.labels?.[0] ?? field.closest("fieldset")?.querySelector("legend") ?? field;
    return { inputId, label: label.textContent, words: fault.textContent };
  });
}
