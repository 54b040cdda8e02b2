import type { FormState } from "@/lib/ui/form-state";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { leadMessages } from "@/lib/ui/messages/en/lead";

const faults: Readonly<Record<string, string>> = leadMessages.faults;

/** What is wrong with a field, or with the first of its parts, in words. */
export function faultWords(state: FormState, field: string): string | undefined {
  const [, code] =
    Object.entries(state.fields ?? {}).find(([path]) => path === field || path.startsWith(`${field}.`)) ?? [];
  return code === undefined ? undefined : (faults[code] ?? fieldWords(code));
}
