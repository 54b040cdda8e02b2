import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { findLeadTrial, type LeadTrialRow, lockTrial } from "@/lib/data/lead";
import { done, type Result, refuse } from "@/lib/errors/result";
import { authoriseLead } from "./authorise";

/** The actor's own draft, held until the transaction ends. */
export async function ownDraft(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<LeadTrialRow, "NOT_FOUND" | "TRIAL_NOT_DRAFT">> {
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  await lockTrial(tx, authorised.value);
  const trial = await findLeadTrial(tx, authorised.value);
  return trial.status === "draft" ? done(trial) : refuse("TRIAL_NOT_DRAFT");
}
