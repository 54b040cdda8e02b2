import { draftMessages } from "@/lib/ui/messages/en/drafts";
import type { DraftState } from "./use-draft";

/** Where what is typed stands, read out when it changes. */
export function DraftNote({ state }: { state: DraftState }) {
  const text = state === "untouched" ? null : draftMessages[state];
  return (
    <p role="status" className="mb-3 min-h-[1.45em] font-semibold text-quiet">
      {text}
    </p>
  );
}
