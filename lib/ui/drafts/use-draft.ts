"use client";

import { useEffect, useRef, useState } from "react";
import { draftKey, dropDraft, keepDraft, parsed, readDraft } from "./draft-store";

/** `on-phone`: kept here and not sent; `page-only`: this phone keeps nothing, so closing the page loses it. */
export type DraftState = "untouched" | "on-phone" | "page-only";

export interface KeptDraft<Draft> {
  readonly draft: Draft;
  readonly state: DraftState;
  /** Changes some of its answers and keeps them; gives the draft as it then is. */
  readonly change: (part: Partial<Draft>) => Draft;
  /** To be called once it is sent: what is on this phone goes; the page shows `fresh`, or what it showed. */
  readonly forget: (fresh?: Draft) => void;
}

/**
 * A draft kept on this phone from the first answer until it is sent. Two tabs of one phone show the same draft, so
 * that its write's id stays one. A draft kept by an earlier version of the page gets what it lacks from `blank`.
 * @param blank made once; for what only this phone knows (its clock), change it after the first showing
 */
export function useDraft<Draft extends object>(name: string, blank: () => Draft): KeptDraft<Draft> {
  const [draft, setDraft] = useState(blank);
  const latest = useRef(draft);
  const [state, setState] = useState<DraftState>("untouched");

  useEffect(() => {
    function take(kept: object | null) {
      if (!kept) return;
      latest.current = { ...latest.current, ...kept };
      setDraft(latest.current);
      setState("on-phone");
    }
    function takeFromOtherTab(event: StorageEvent) {
      if (event.key === draftKey(name)) take(parsed(event.newValue));
    }
    take(readDraft(name));
    window.addEventListener("storage", takeFromOtherTab);
    return () => window.removeEventListener("storage", takeFromOtherTab);
  }, [name]);

  function change(part: Partial<Draft>): Draft {
    latest.current = { ...latest.current, ...part };
    setDraft(latest.current);
    setState(keepDraft(name, latest.current) ? "on-phone" : "page-only");
    return latest.current;
  }

  function forget(fresh = latest.current): void {
    dropDraft(name);
    latest.current = fresh;
    setDraft(fresh);
    setState("untouched");
  }

  return { draft, state, change, forget };
}
