import { v7 } from "uuid";
import type { Claims } from "@/lib/auth/claims";
import { randomToken, tokenHash } from "@/lib/auth/codes";
import { withinLimits } from "@/lib/auth/limits";
import { passwordFault } from "@/lib/auth/password-strength";
import { hashPassword } from "@/lib/auth/passwords";
import { insertResetToken, resetTokenAccount, spendResetToken } from "@/lib/data/account-tokens";
import { accountForReset, setPasswordHash } from "@/lib/data/accounts";
import type { Transaction } from "@/lib/data/client";
import { done, type Result, refuse } from "@/lib/errors/result";
import { enqueueMail } from "@/lib/mail/enqueue";

const LINK_LASTS_MS = 60 * 60 * 1000;

/** Whether a reset mail may be asked for; the same for an address with an account and one without. */
export function mayAskForReset(email: string, from: string): Promise<boolean> {
  return withinLimits({ mailFrom: from, mailTo: email });
}

/** Mails a one-time link to the account of this address; nothing happens when there is none or it is disabled. */
export async function mailResetLink(tx: Transaction, email: string, now: Date): Promise<Result<null, never>> {
  const account = await accountForReset(tx, email);
  if (!account || account.disabledAt) return done(null);
  const token = randomToken();
  const expiresAt = new Date(now.getTime() + LINK_LASTS_MS);
  await insertResetToken(tx, { id: v7(), accountId: account.id, tokenHash: tokenHash(token), expiresAt });
  await enqueueMail(tx, account, { kind: "reset", token });
  return done(null);
}

/** Whether a reset link can still be used. */
export async function resetLinkHolds(tx: Transaction, token: string, now: Date): Promise<boolean> {
  return (await resetTokenAccount(tx, tokenHash(token), now)) !== null;
}

/**
 * Sets a new password by a mailed link, once. Ends every session and every other link of the account, and says
 * so by mail.
 */
export async function resetPassword(
  tx: Transaction,
  given: { token: string; password: string; from: string },
  now: Date,
): Promise<
  Result<Claims, "TOO_MANY_REQUESTS" | "LINK_NO_LONGER_HOLDS" | NonNullable<ReturnType<typeof passwordFault>>>
> {
  if (!(await withinLimits({ resetFrom: given.from }))) return refuse("TOO_MANY_REQUESTS");
  const hash = tokenHash(given.token);
  const account = await resetTokenAccount(tx, hash, now);
  if (!account) return refuse("LINK_NO_LONGER_HOLDS");
  const fault = passwordFault(given.password, [account.name, account.email]);
  if (fault) return refuse(fault);
  if (!(await spendResetToken(tx, hash, account.id, now))) return refuse("LINK_NO_LONGER_HOLDS");
  const sessionVersion = await setPasswordHash(tx, account.id, await hashPassword(given.password));
  await enqueueMail(tx, account, { kind: "password-changed" });
  return done({ accountId: account.id, sessionVersion });
}
