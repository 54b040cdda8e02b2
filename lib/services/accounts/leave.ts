import type { Actor } from "@/lib/auth/actor";
import {
  countOtherAccounts,
  countOtherAdmins,
  deleteAccount,
  deleteDraftsLedAlone,
  holdTrialsLedBy,
  type LedAloneRow,
  trialsLedAlone,
} from "@/lib/data/accounts";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { enrolmentsOf } from "@/lib/data/enrolments";
import { eraseReasonsBy } from "@/lib/data/hiding";
import { deleteLettersBy } from "@/lib/data/letters";
import { waitingIn } from "@/lib/data/my-things";
import { done, type Result, refuse } from "@/lib/errors/result";
import { photoStore } from "@/lib/photos/disk-store";
import { LEAST_MINIMUM } from "@/shared/schemas/plan";
import { leaveTrial, stepBack } from "../growing/leave-trial";
import { confirmPassword } from "./settings";

export type { LedAloneRow };

/** The trials that the actor has to hand over, or see through to their release, before leaving. */
export function leadsAlone(tx: Transaction, actor: Actor): Promise<LedAloneRow[]> {
  return trialsLedAlone(tx, actor.accountId, LEAST_MINIMUM.growersPerCell);
}

/**
 * Deletes the account and everything that says who its owner is or where they are: name, address, password,
 * places, pins, free text, pictures, recipes' own names, helper links, letters got and sent, reasons given for hiding
 * something, drafts nobody else leads, mails and receipts. What stays is what they were told at joining: draws,
 * outcomes and jars under a pseudonym, marked as of somebody who left. A home that nobody is left of gives its seats
 * and its turns in line to others. Who leads a trial alone that still needs its lead can't go yet.
 */
export async function leave(
  tx: Transaction,
  actor: Actor,
  password: string,
): Promise<Result<null, "TOO_MANY_REQUESTS" | "WRONG_PASSWORD" | "LAST_ADMIN" | "LEADS_ALONE">> {
  const confirmed = await confirmPassword(tx, actor, password);
  if (!confirmed.ok) return confirmed;
  if (actor.isAdmin && (await countOtherAdmins(tx, actor.accountId)) === 0) return refuse("LAST_ADMIN");
  await holdTrialsLedBy(tx, actor.accountId);
  if ((await leadsAlone(tx, actor)).length > 0) return refuse("LEADS_ALONE");
  if ((await countOtherAccounts(tx, actor)) === 0) await leaveTrials(tx, actor);
  await insertAuditEntry(tx, { growerId: actor.growerId, action: "account.left", subjectId: actor.growerId });
  await deleteLettersBy(tx, actor.accountId);
  await eraseReasonsBy(tx, actor.growerId);
  await deleteDraftsLedAlone(tx, actor.accountId);
  await deleteAccount(tx, actor.accountId, actor.growerId);
  // Last, so that no account goes without its pictures: if they can't be deleted, nothing is.
  await photoStore().removeAll(actor.accountId);
  return done(null);
}

/** In trials that have closed there is no seat to give; their refusals change nothing. */
async function leaveTrials(tx: Transaction, actor: Actor): Promise<void> {
  for (const { trialId } of await enrolmentsOf(tx, actor.householdId)) await leaveTrial(tx, actor, trialId);
  for (const { trial } of await waitingIn(tx, actor.householdId)) await stepBack(tx, actor, trial.id);
}
