import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { findLeadTrial, findSecret, type LeadTrialRow, lockTrial, markClosed } from "@/lib/data/lead";
import { endPause } from "@/lib/data/pauses";
import { wantPool } from "@/lib/data/pool-state";
import { done, type Result, refuse } from "@/lib/errors/result";
import { openSecret } from "@/lib/services/seal";
import { everyCellAtMinimum, hasReachedEnd } from "@/lib/services/trial-ends";
import { authoriseLead } from "./authorise";

/** Why a trial may not close yet, by the rule its plan states. */
export type ClosingFault = "CLOSES_AT_ITS_END_ONLY" | "MINIMUM_NOT_REACHED";

/** Closes the actor's open trial, paused or not: publishes the secret and has the results worked out a last time. */
export async function closeTrial(
  tx: Transaction,
  actor: Actor,
  trialIdAsked: string,
  now: Date,
): Promise<Result<{ readonly trialId: string }, "NOT_FOUND" | "TRIAL_NOT_OPEN" | ClosingFault>> {
  const authorised = await authoriseLead(tx, actor, trialIdAsked);
  if (!authorised.ok) return authorised;
  const trialId = authorised.value;
  await lockTrial(tx, trialId);
  const trial = await findLeadTrial(tx, trialId);
  if (trial.status !== "open") return refuse("TRIAL_NOT_OPEN");
  const early = !(await hasReachedEnd(tx, trialId, trial.ends, now));
  const fault = early ? await closingFault(tx, trial) : null;
  if (fault) return refuse(fault);
  await endPause(tx, trialId, now);
  await markClosed(tx, trialId, openSecret(await findSecret(tx, trialId)));
  await wantPool(tx, trialId);
  await insertAuditEntry(tx, {
    growerId: actor.growerId,
    action: "trial.closed",
    subjectId: trialId,
    detail: { early },
  });
  return done({ trialId });
}

/** Why an open trial that hasn't come to its end may not close, or null. */
export async function closingFault(
  tx: Transaction,
  trial: Pick<LeadTrialRow, "id" | "plan">,
): Promise<ClosingFault | null> {
  const plan = trial.plan!;
  if (plan.earlyCloseRule === "never") return "CLOSES_AT_ITS_END_ONLY";
  if (plan.earlyCloseRule !== "every-cell-at-minimum") return null;
  return (await everyCellAtMinimum(tx, trial.id, plan)) ? null : "MINIMUM_NOT_REACHED";
}
