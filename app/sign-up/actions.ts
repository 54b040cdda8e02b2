"use server";

import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { safeNextPath } from "@/lib/auth/next-path";
import { askedFrom } from "@/lib/auth/request-origin";
import { startSession } from "@/lib/auth/start-session";
import { type SignUpRefusal, signUp } from "@/lib/services/accounts/sign-up";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults } from "@/lib/ui/form-state";
import { signUpSchema } from "@/shared/schemas/account";

/** The field a refusal is about. */
const FIELD: Partial<Record<SignUpRefusal, string>> = {
  EMAIL_TAKEN: "email",
  NO_SUCH_HOUSEHOLD: "householdCode",
  PASSWORD_TOO_SHORT: "password",
  PASSWORD_TOO_LONG: "password",
  PASSWORD_TOO_COMMON: "password",
};

export async function makeAccount(_previous: FormState, form: FormData): Promise<FormState> {
  const { password: _unkept, ...values } = Object.fromEntries(
    ["name", "email", "householdCode", "password"].map((field) => [field, String(form.get(field) ?? "")]),
  );
  const parsed = signUpSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { fields: fieldFaults(parsed.error), values };
  const from = askedFrom(await headers());
  const result = await inTransaction((tx) => signUp(tx, parsed.data, from));
  if (!result.ok) {
    const field = FIELD[result.reason];
    return field ? { fields: { [field]: result.reason }, values } : { error: result.reason, values };
  }
  await startSession(result.value);
  redirect(safeNextPath(String(form.get("next") ?? "")));
}
