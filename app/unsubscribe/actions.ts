"use server";

import { stopLettersByToken } from "@/lib/services/accounts/letters-by-mail";
import { inTransaction } from "@/lib/services/run";
import type { FormState } from "@/lib/ui/form-state";

export async function stopLetters(_previous: FormState, form: FormData): Promise<FormState> {
  const token = String(form.get("token") ?? "");
  const stopped = await inTransaction((tx) => stopLettersByToken(tx, token));
  return stopped.ok ? { done: "STOPPED" } : { error: stopped.reason };
}
