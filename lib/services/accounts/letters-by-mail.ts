import type { Actor } from "@/lib/auth/actor";
import { setLeadMails } from "@/lib/data/accounts";
import type { Transaction } from "@/lib/data/client";
import { done, type Result, refuse } from "@/lib/errors/result";
import { accountOfToken } from "@/lib/mail/unsubscribe";

/** Whether letters from leads are mailed to the actor; they stand under "My things" either way. */
export async function switchLettersByMail(
  tx: Transaction,
  actor: Actor,
  wanted: boolean,
): Promise<Result<null, never>> {
  await setLeadMails(tx, actor.accountId, wanted);
  return done(null);
}

/** The same, off, for whoever holds a link from such a letter; nobody needs to sign in for it. */
export async function stopLettersByToken(tx: Transaction, token: string): Promise<Result<null, "NOT_FOUND">> {
  const accountId = accountOfToken(token);
  if (!accountId) return refuse("NOT_FOUND");
  await setLeadMails(tx, accountId, false);
  return done(null);
}
