"use client";

import { type RefObject, type SubmitEvent, startTransition, useActionState, useEffect, useRef } from "react";
import type { FormState } from "../form-state";
import { doneWaiting, nowWaiting } from "../waiting";

type Action<State> = (previous: Awaited<State>, form: FormData) => Promise<State>;

interface FormActionProps {
  readonly ref: RefObject<HTMLFormElement | null>;
  readonly noValidate: true;
  readonly action: (form: FormData) => void;
  readonly onSubmit: (event: SubmitEvent<HTMLFormElement>) => void;
}

/**
 * A form answered by a server action. Faults are told in our words by the action's answer, not by the browser's
 * bubbles. What was typed stays in the fields, a password too, until the answer says that something was done: React
 * empties whatever is sent by `action`, so that only serves before the page's scripts run.
 * @returns what came of it, the props of the form, and whether it is on its way
 */
export function useFormAction<State extends FormState>(
  action: Action<State>,
): [Awaited<State>, FormActionProps, boolean] {
  const [state, send, pending] = useActionState(onPhone ? orNoSignal(action) : action, {} as Awaited<State>);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    if (state.done) form.current?.reset();
  }, [state]);
  useEffect(() => {
    if (!pending) return;
    nowWaiting();
    return () => void doneWaiting();
  }, [pending]);
  function onSubmit(event: SubmitEvent<HTMLFormElement>) {
    event.preventDefault();
    const typed = new FormData(event.currentTarget, event.nativeEvent.submitter);
    startTransition(() => send(typed));
  }
  return [state, { ref: form, noValidate: true, action: send, onSubmit }, pending];
}

/** The server writes the action itself into the page. */
const onPhone = typeof window !== "undefined";

/** The action's answer, or that none came, which would otherwise put a fault's page in the form's place. */
function orNoSignal<State extends FormState>(action: Action<State>): Action<State> {
  return async (previous, form) => {
    try {
      return await action(previous, form);
    } catch (fault) {
      if (fault instanceof TypeError) return { error: "NO_SIGNAL" } as State; // what fetch throws
      throw fault;
    }
  };
}
