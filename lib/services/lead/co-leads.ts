import type { Actor } from "@/lib/auth/actor";
import { hasTriesLeft, withinLimits } from "@/lib/auth/limits";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { findLeadTrial, type LeadTrialRow, lockTrial } from "@/lib/data/lead";
import {
  accountThatMayLead,
  deleteTrialLead,
  insertTrialLead,
  leadsOf,
  type TrialLeadRow,
} from "@/lib/data/trial-leads";
import { done, type Result, refuse } from "@/lib/errors/result";
import { enqueueMail } from "@/lib/mail/enqueue";
import { authoriseLead } from "./authorise";

/** Who leads the actor's trial, draft or not. */
export async function trialLeads(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<{ readonly trial: LeadTrialRow; readonly leads: readonly TrialLeadRow[] }, "NOT_FOUND">> {
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  return done({
    trial: await findLeadTrial(tx, authorised.value),
    leads: await leadsOf(tx, authorised.value),
  });
}

/**
 * Makes somebody who may lead a further lead of the actor's trial. An address without such an account is refused
 * alike, whether it has another account or none, and tries are limited: nobody can find out who has an account.
 */
export async function addLead(
  tx: Transaction,
  actor: Actor,
  { trialId, email }: { readonly trialId: string; readonly email: string },
): Promise<
  Result<{ readonly name: string }, "NOT_FOUND" | "TOO_MANY_REQUESTS" | "NO_SUCH_LEAD" | "LEADS_ALREADY">
> {
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  if (!(await hasTriesLeft("wrongCode", actor.accountId))) return refuse("TOO_MANY_REQUESTS");
  const account = await accountThatMayLead(tx, email.trim().toLowerCase());
  if (!account) {
    await withinLimits({ wrongCode: actor.accountId });
    return refuse("NO_SUCH_LEAD");
  }
  if (!(await insertTrialLead(tx, authorised.value, account.id))) return refuse("LEADS_ALREADY");
  const { title } = await findLeadTrial(tx, authorised.value);
  await enqueueMail(tx, account, { kind: "lead-added", title, trialId });
  await insertAuditEntry(tx, {
    growerId: actor.growerId,
    action: "lead.added",
    subjectId: trialId,
    detail: { growerId: account.growerId },
  });
  return done({ name: account.name });
}

/** Steps back from leading a trial; whoever is left leads on, and the last one can't. */
export async function stepBack(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<null, "NOT_FOUND" | "LAST_LEAD">> {
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  await lockTrial(tx, authorised.value); // of two who step back at once, the second finds itself the last
  const leads = await leadsOf(tx, authorised.value);
  if (!leads.some(({ accountId }) => accountId !== actor.accountId)) return refuse("LAST_LEAD");
  await deleteTrialLead(tx, authorised.value, actor.accountId);
  await insertAuditEntry(tx, { growerId: actor.growerId, action: "lead.stepped-back", subjectId: trialId });
  return done(null);
}
