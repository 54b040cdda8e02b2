import type { FormState } from "@/lib/ui/form-state";
import { deskMessages } from "@/lib/ui/messages/en/desk";

/** What is wrong with a field of a form at the desk, in words. */
export function deskFault(state: FormState, field: string): string | undefined {
  const code = state.fields?.[field];
  return code === undefined ? undefined : (deskMessages.faults[code] ?? deskMessages.outcomes.INVALID);
}
