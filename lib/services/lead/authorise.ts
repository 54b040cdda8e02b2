import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { isLeadOf } from "@/lib/data/lead";
import { done, type Result, refuse } from "@/lib/errors/result";
import { isUuid } from "@/shared/schemas/id";

declare const authorized: unique symbol;

/** The id of a trial whose lead is the one who asks, as found inside the transaction that uses it. */
export type AuthorizedTrialId = string & { readonly [authorized]: true };

/** Another's trial, and no trial at all, look the same. Being an admin opens no trial. */
export async function authoriseLead(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<AuthorizedTrialId, "NOT_FOUND">> {
  if (!isUuid(trialId) || !(await isLeadOf(tx, actor.accountId, trialId))) return refuse("NOT_FOUND");
  return done(trialId as AuthorizedTrialId);
}

/** Who may make trials of their own. */
export function mayMakeTrials(actor: Actor): boolean {
  return actor.mayLead || actor.isAdmin;
}
