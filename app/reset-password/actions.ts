"use server";

import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { after } from "next/server";
import { askedFrom } from "@/lib/auth/request-origin";
import { startSession } from "@/lib/auth/start-session";
import { sendWaitingMails } from "@/lib/mail/send";
import { resetPassword } from "@/lib/services/accounts/reset";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults } from "@/lib/ui/form-state";
import { newPasswordSchema } from "@/shared/schemas/account";

export async function saveNewPassword(_previous: FormState, form: FormData): Promise<FormState> {
  const parsed = newPasswordSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { fields: fieldFaults(parsed.error) };
  const given = { ...parsed.data, from: askedFrom(await headers()) };
  const result = await inTransaction((tx) => resetPassword(tx, given, new Date()));
  if (!result.ok) {
    const aboutPassword = result.reason.startsWith("PASSWORD_");
    return aboutPassword ? { fields: { password: result.reason } } : { error: result.reason };
  }
  after(() => sendWaitingMails());
  await startSession(result.value);
  redirect("/account");
}
