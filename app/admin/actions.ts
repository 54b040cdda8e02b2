"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import { z } from "zod";
import { currentActor } from "@/lib/auth/session";
import { allowLeading, allowSignIn, sendTestMail } from "@/lib/services/accounts/admin";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults } from "@/lib/ui/form-state";
import { mailMessages } from "@/lib/ui/messages/en/mails";
import { emailSchema } from "@/shared/schemas/account";

const changeSchema = z.object({
  accountId: z.uuid(),
  allowed: z.enum(["yes", "no"]).transform((answer) => answer === "yes"),
});

async function change(form: FormData, service: typeof allowSignIn | typeof allowLeading): Promise<void> {
  const actor = await currentActor();
  const parsed = changeSchema.safeParse(Object.fromEntries(form));
  if (!actor || !parsed.success) notFound();
  const result = await inTransaction((tx) => service(tx, actor, parsed.data));
  if (!result.ok) notFound();
  revalidatePath("/admin");
}

export async function changeSignIn(form: FormData): Promise<void> {
  await change(form, allowSignIn);
}

export async function changeLeading(form: FormData): Promise<void> {
  await change(form, allowLeading);
}

export async function sendTest(_previous: FormState, form: FormData): Promise<FormState> {
  const actor = await currentActor();
  if (!actor) notFound();
  const values = { email: String(form.get("email") ?? "") };
  const parsed = emailSchema.safeParse(values);
  if (!parsed.success) return { fields: fieldFaults(parsed.error), values };
  const sent = await sendTestMail(actor, { to: parsed.data.email, ...mailMessages.test });
  if (sent.ok) return { done: "SENT", values };
  if (sent.reason === "NOT_FOUND") notFound();
  return { error: sent.reason, values };
}
