import { accountForSignIn } from "@/lib/data/accounts";
import type { Transaction } from "@/lib/data/client";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { Claims } from "./claims";
import { withinLimits } from "./limits";
import { passwordMatches } from "./passwords";

export interface SignInTry {
  readonly email: string;
  readonly password: string;
  /** The network address asked from. */
  readonly from: string;
}

/** Address and password against the database. That an account is disabled is said only to its owner. */
export async function checkSignIn(
  tx: Transaction,
  attempt: SignInTry,
): Promise<Result<Claims, "TOO_MANY_REQUESTS" | "WRONG_SIGN_IN" | "ACCOUNT_DISABLED">> {
  const email = attempt.email.trim().toLowerCase();
  const allowed = await withinLimits({
    signInFrom: attempt.from,
    signIn: `${email} ${attempt.from}`,
    signInAccount: email,
  });
  if (!allowed) return refuse("TOO_MANY_REQUESTS");
  if (attempt.password.length > 128 || email.length > 254) return refuse("WRONG_SIGN_IN");
  const account = await accountForSignIn(tx, email);
  if (!(await passwordMatches(account?.passwordHash, attempt.password)) || !account) {
    return refuse("WRONG_SIGN_IN");
  }
  if (account.disabledAt) return refuse("ACCOUNT_DISABLED");
  return done({ accountId: account.id, sessionVersion: account.sessionVersion });
}
