"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { after } from "next/server";
import { currentActor, requireActor } from "@/lib/auth/session";
import { endSession, startSession } from "@/lib/auth/start-session";
import { sendWaitingMails } from "@/lib/mail/send";
import { leave } from "@/lib/services/accounts/leave";
import { switchLettersByMail } from "@/lib/services/accounts/letters-by-mail";
import { changePassword, renameAccount, signOutEverywhere } from "@/lib/services/accounts/settings";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { changePasswordSchema, confirmSchema, nameSchema } from "@/shared/schemas/account";

const HERE = "/account";

export async function saveName(_previous: FormState, form: FormData): Promise<FormState> {
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const parsed = nameSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { fields: fieldFaults(parsed.error) };
  await inTransaction((tx) => renameAccount(tx, actor, parsed.data.name));
  revalidatePath(HERE);
  return { done: "NAME_SAVED", values: { name: parsed.data.name } };
}

export async function saveLetters(_previous: FormState, form: FormData): Promise<FormState> {
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  await inTransaction((tx) => switchLettersByMail(tx, actor, form.get("byMail") === "on"));
  revalidatePath(HERE);
  return { done: "LETTERS_SAVED" };
}

export async function savePassword(_previous: FormState, form: FormData): Promise<FormState> {
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const parsed = changePasswordSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { fields: fieldFaults(parsed.error) };
  const result = await inTransaction((tx) => changePassword(tx, actor, parsed.data));
  if (!result.ok) {
    if (result.reason === "TOO_MANY_REQUESTS") return { error: result.reason };
    const field = result.reason === "WRONG_PASSWORD" ? "current" : "password";
    return { fields: { [field]: result.reason } };
  }
  after(() => sendWaitingMails());
  await startSession(result.value);
  return { done: "PASSWORD_SAVED" };
}

export async function signOut(): Promise<void> {
  await endSession();
  redirect("/sign-in");
}

export async function endAllSessions(): Promise<void> {
  const actor = await requireActor(HERE);
  await inTransaction((tx) => signOutEverywhere(tx, actor));
  await endSession();
  redirect("/sign-in");
}

export async function deleteAccount(_previous: FormState, form: FormData): Promise<FormState> {
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const parsed = confirmSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { fields: fieldFaults(parsed.error) };
  const result = await inTransaction((tx) => leave(tx, actor, parsed.data.password));
  if (!result.ok) {
    return result.reason === "WRONG_PASSWORD"
      ? { fields: { password: result.reason } }
      : { error: result.reason };
  }
  await endSession();
  redirect("/sign-in?left");
}
