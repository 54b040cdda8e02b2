"use client";

import { useRef, useState } from "react";
import { v7 } from "uuid";
import { formMessages } from "./messages/en/forms";
import { growingMessages } from "./messages/en/growing";
import { type SentProblem, sendWrite } from "./send";

/**
 * One write of a page. Its id is made once and kept until the server has answered that it is saved, so that
 * pressing again after a lost answer can't save twice.
 */
export function useWrite<Value>(path: string): {
  readonly busy: boolean;
  readonly problem: SentProblem | null;
  /** The answer when saved; null when refused, and `problem` says why. */
  readonly send: (content: object) => Promise<Value | null>;
  /** Says what has to be mended before anything is sent. */
  readonly refuse: (fields: SentProblem["fields"]) => void;
  /** Begins another write: what was refused is no longer what is to be sent. */
  readonly anew: () => void;
} {
  const id = useRef<string | null>(null);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<SentProblem | null>(null);

  async function send(content: object): Promise<Value | null> {
    id.current ??= v7();
    setBusy(true);
    setProblem(null);
    const sent = await sendWrite<Value>(path, { id: id.current, ...content }, growingMessages.noSignal);
    setBusy(false);
    if (!sent.ok) {
      setProblem(sent.problem);
      return null;
    }
    id.current = null;
    return sent.value;
  }

  const refuse = (fields: SentProblem["fields"]) =>
    setProblem({ reason: "INVALID", ...formMessages.invalid, fields });

  function anew(): void {
    id.current = null;
    setProblem(null);
  }

  return { busy, problem, send, refuse, anew };
}
