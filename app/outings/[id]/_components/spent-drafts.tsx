"use client";

import { useEffect } from "react";
import { dropDraft } from "@/lib/ui/drafts/draft-store";

/** Forgets what was typed for steps that no box waits for any more: the server has them, by another phone or tab too. */
export function SpentDrafts({ names }: { names: readonly string[] }) {
  const list = names.join(" ");
  useEffect(() => {
    for (const name of list.split(" ").filter(Boolean)) dropDraft(name);
  }, [list]);
  return null;
}
