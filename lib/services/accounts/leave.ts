import type { Actor } from "@/lib/auth/actor";
import { countOtherAdmins, deleteAccount } from "@/lib/data/accounts";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { done, type Result, refuse } from "@/lib/errors/result";
import { photoStore } from "@/lib/photos/disk-store";
import { confirmPassword } from "./settings";

/**
 * Deletes the account and everything that says who its owner is or where they are: name, address, password,
 * places, free text, pictures, recipes' own names, mails and receipts. What stays is what they were told at
 * joining: draws, outcomes and jars under a pseudonym, marked as of somebody who left.
 */
export async function leave(
  tx: Transaction,
  actor: Actor,
  password: string,
): Promise<Result<null, "TOO_MANY_REQUESTS" | "WRONG_PASSWORD" | "LAST_ADMIN">> {
  const confirmed = await confirmPassword(tx, actor, password);
  if (!confirmed.ok) return confirmed;
  if (actor.isAdmin && (await countOtherAdmins(tx, actor.accountId)) === 0) return refuse("LAST_ADMIN");
  await insertAuditEntry(tx, { growerId: actor.growerId, action: "account.left", subjectId: actor.growerId });
  await deleteAccount(tx, actor.accountId, actor.growerId);
  // Last, so that no account goes without its pictures: if they can't be deleted, nothing is.
  await photoStore().removeAll(actor.accountId);
  return done(null);
}
