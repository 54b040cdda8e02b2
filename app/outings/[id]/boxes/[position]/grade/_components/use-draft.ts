"use client";

import { useEffect, useState } from "react";
import { localNow } from "@/lib/ui/moments";
import type { GradeMeasures } from "@/shared/schemas/grade";
import { draftKey, type GradeDraft, newDraft } from "./draft";

interface Standing {
  readonly revision: number;
  readonly measures: GradeMeasures;
}

/** The answers so far, kept on this phone from the first one until they are sent. */
export function useDraft(boxId: string, standing: Standing | null) {
  // The key stays that of the first showing: once sent, the page is told of a newer revision.
  const [key] = useState(() => draftKey(boxId, standing?.revision ?? null));
  const [draft, setDraft] = useState(() => newDraft(standing?.measures ?? null));
  const [isFirst] = useState(standing === null);
  const [isKept, setKept] = useState(false);

  useEffect(() => {
    const kept = localStorage.getItem(key);
    if (kept !== null) {
      setDraft(JSON.parse(kept) as GradeDraft);
      setKept(true);
    } else if (isFirst) {
      // This device's clock, which the server that drew the page does not know.
      setDraft((blank) => ({ ...blank, openedAt: localNow() }));
    }
  }, [key, isFirst]);

  function change(part: Partial<GradeDraft>): GradeDraft {
    const changed = { ...draft, ...part };
    setDraft(changed);
    localStorage.setItem(key, JSON.stringify(changed));
    setKept(true);
    return changed;
  }

  function forget(): void {
    localStorage.removeItem(key);
    setKept(false);
  }

  return { draft, isKept, change, forget };
}
