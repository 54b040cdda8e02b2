"use server";

import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { safeNextPath } from "@/lib/auth/next-path";
import { askedFrom } from "@/lib/auth/request-origin";
import { checkSignIn } from "@/lib/auth/sign-in";
import { startBorrowedSession, startSession } from "@/lib/auth/start-session";
import { signInAsDemo } from "@/lib/services/accounts/demo";
import { reading } from "@/lib/services/run";
import { type FormState, fieldFaults } from "@/lib/ui/form-state";
import { signInSchema } from "@/shared/schemas/account";

export async function signIn(_previous: FormState, form: FormData): Promise<FormState> {
  const borrowed = form.get("borrowed") === "on";
  const values = { email: String(form.get("email") ?? ""), borrowed: borrowed ? "on" : "" };
  const parsed = signInSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { fields: fieldFaults(parsed.error), values };
  const from = askedFrom(await headers());
  const result = await reading((tx) => checkSignIn(tx, { ...parsed.data, from }));
  if (!result.ok) return { error: result.reason, values };
  await (borrowed ? startBorrowedSession(result.value) : startSession(result.value));
  redirect(safeNextPath(String(form.get("next") ?? "")));
}

export async function signInToDemo(_previous: FormState, form: FormData): Promise<FormState> {
  const from = askedFrom(await headers());
  const result = await reading((tx) => signInAsDemo(tx, String(form.get("role") ?? ""), from));
  if (!result.ok) return { error: result.reason };
  await startSession(result.value);
  redirect(safeNextPath(String(form.get("next") ?? "")));
}
