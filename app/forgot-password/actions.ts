"use server";

import { headers } from "next/headers";
import { after } from "next/server";
import { askedFrom } from "@/lib/auth/request-origin";
import { sendWaitingMails } from "@/lib/mail/send";
import { mailResetLink, mayAskForReset } from "@/lib/services/accounts/reset";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults } from "@/lib/ui/form-state";
import { emailSchema } from "@/shared/schemas/account";

/** The account is looked for after the answer is given: neither its words nor its time tell whether there is one. */
export async function askForLink(_previous: FormState, form: FormData): Promise<FormState> {
  const values = { email: String(form.get("email") ?? "") };
  const parsed = emailSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { fields: fieldFaults(parsed.error), values };
  const { email } = parsed.data;
  if (!(await mayAskForReset(email, askedFrom(await headers())))) {
    return { error: "TOO_MANY_REQUESTS", values };
  }
  after(async () => {
    await inTransaction((tx) => mailResetLink(tx, email, new Date()));
    await sendWaitingMails();
  });
  return { done: "MAIL_ON_ITS_WAY" };
}
