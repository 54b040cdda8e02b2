import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { amendmentsOf, insertAmendment } from "@/lib/data/amendments";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { recordedBoxes } from "@/lib/data/drawn-boxes";
import { findLeadTrial, type LeadTrialRow, lockTrial } from "@/lib/data/lead";
import { canonicalHash } from "@/lib/engine/random/hash";
import { done, type Result, refuse } from "@/lib/errors/result";
import { dayOf } from "@/lib/services/trial-ends";
import type { PlanAmendment, PlanChange } from "@/shared/schemas/plan-amendment";
import { authoriseLead } from "./authorise";

export type AmendRefusal =
  | "NOT_FOUND"
  | "TRIAL_NOT_OPEN"
  | "ENDS_IN_PAST"
  /** So many boxes are recorded already. */
  | "BOXES_ALREADY_RECORDED"
  /** It stands so already. */
  | "NOTHING_CHANGES"
  /** A plan that doesn't let its lead close early doesn't let them bring the end forward either. */
  | "END_ONLY_LATER";

/** The hash an amendment must carry: `canonicalHash` of all its other members. */
export function amendmentHash(amendment: Omit<PlanAmendment, "hash">): string {
  const { trialId, number, madeAt, change, reason, previousHash } = amendment;
  return canonicalHash({ trialId, number, madeAt, change, reason, previousHash });
}

/** Amends the plan of the actor's open trial, dated and chained to the plan. The plan itself stays as it is. */
export async function amendPlan(
  tx: Transaction,
  actor: Actor,
  input: { readonly trialId: string; readonly change: PlanChange; readonly reason: string },
  now: Date,
): Promise<Result<{ readonly number: number; readonly hash: string }, AmendRefusal>> {
  const authorised = await authoriseLead(tx, actor, input.trialId);
  if (!authorised.ok) return authorised;
  const trialId = authorised.value;
  await lockTrial(tx, trialId);
  const trial = await findLeadTrial(tx, trialId);
  if (trial.status !== "open") return refuse("TRIAL_NOT_OPEN");
  const { change, reason } = input;
  const fault = await changeFault(tx, trial, change, now);
  if (fault) return refuse(fault);

  const last = (await amendmentsOf(tx, trialId)).at(-1);
  const content = {
    trialId,
    number: (last?.number ?? 0) + 1,
    madeAt: now.toISOString(),
    change,
    reason,
    previousHash: last?.hash ?? trial.planHash!,
  };
  const hash = amendmentHash(content);
  await insertAmendment(tx, { ...content, hash, id: v7(), growerId: actor.growerId });
  const { number } = content;
  await insertAuditEntry(tx, {
    growerId: actor.growerId,
    action: "trial.amended",
    subjectId: trialId,
    detail: { number, hash },
  });
  return done({ number, hash });
}

async function changeFault(
  tx: Transaction,
  trial: LeadTrialRow,
  change: PlanChange,
  now: Date,
): Promise<AmendRefusal | null> {
  const { ends } = trial;
  const mayComeForward = !["never", "every-cell-at-minimum"].includes(trial.plan!.earlyCloseRule);
  if ("endsOn" in change) {
    if (change.endsOn <= dayOf(now)) return "ENDS_IN_PAST";
    if (change.endsOn === ends.endsOn) return "NOTHING_CHANGES";
    return change.endsOn < ends.endsOn && !mayComeForward ? "END_ONLY_LATER" : null;
  }
  if ("endsAtBoxes" in change) {
    const before = ends.endsAtBoxes ?? Number.POSITIVE_INFINITY;
    if (change.endsAtBoxes === before) return "NOTHING_CHANGES";
    if (change.endsAtBoxes < before && !mayComeForward) return "END_ONLY_LATER";
    return (await recordedBoxes(tx, trial.id)) >= change.endsAtBoxes ? "BOXES_ALREADY_RECORDED" : null;
  }
  return null;
}
