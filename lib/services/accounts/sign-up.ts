import { v7 } from "uuid";
import type { Claims } from "@/lib/auth/claims";
import { randomCode, typedCode } from "@/lib/auth/codes";
import { hasTriesLeft, withinLimits } from "@/lib/auth/limits";
import { passwordFault } from "@/lib/auth/password-strength";
import { hashPassword } from "@/lib/auth/passwords";
import { insertAccount } from "@/lib/data/accounts";
import type { Transaction } from "@/lib/data/client";
import { householdIdByJoinCode, insertHousehold } from "@/lib/data/households";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { SignUpForm } from "@/shared/schemas/account";

export type SignUpRefusal =
  | "TOO_MANY_REQUESTS"
  | "NO_SUCH_HOUSEHOLD"
  | "EMAIL_TAKEN"
  | NonNullable<ReturnType<typeof passwordFault>>;

/** An account for a newcomer, with a household of their own or, by its code, in the one they live in. */
export async function signUp(
  tx: Transaction,
  form: SignUpForm,
  from: string,
): Promise<Result<Claims, SignUpRefusal>> {
  const code = typedCode(form.householdCode);
  if (!(await withinLimits({ signUpFrom: from }))) return refuse("TOO_MANY_REQUESTS");
  if (code && !(await hasTriesLeft("wrongCode", from))) return refuse("TOO_MANY_REQUESTS");
  const fault = passwordFault(form.password, [form.name, form.email]);
  if (fault) return refuse(fault);
  const householdId = code ? await householdIdByJoinCode(tx, code) : v7();
  if (!householdId) {
    await withinLimits({ wrongCode: from });
    return refuse("NO_SUCH_HOUSEHOLD");
  }
  if (!code) await insertHousehold(tx, householdId, randomCode());
  const account = {
    id: v7(),
    growerId: v7(),
    householdId,
    email: form.email,
    name: form.name,
    passwordHash: await hashPassword(form.password),
  };
  if (!(await insertAccount(tx, account))) return refuse("EMAIL_TAKEN");
  return done({ accountId: account.id, sessionVersion: 1 });
}
