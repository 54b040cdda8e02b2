import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { findLeadTrial, findSecret, lockTrial, markClosed, markOpened } from "@/lib/data/lead";
import { wantPool } from "@/lib/data/pool-state";
import { chainStart, sealOf } from "@/lib/engine/design/ledger";
import { planHash } from "@/lib/engine/design/plan";
import { done, type Result, refuse } from "@/lib/errors/result";
import { newSecretHex, openSecret, sealSecret } from "@/lib/services/seal";
import { ARMS_PER_TRIAL, type TrialPlan } from "@/shared/schemas/plan";
import { groupingFaults } from "@/shared/vocabulary/climate";
import { authoriseLead } from "./authorise";
import { DEFAULT_PLAN_CHOICES, planOf } from "./plan";

export type OpenRefusal =
  | "NOT_FOUND"
  | "TRIAL_NOT_DRAFT"
  | "TOO_FEW_RECIPES"
  | "NO_REGION"
  | "GROUPING_FAULTY"
  | "ENDS_IN_PAST";

/** Opens the actor's draft: freezes its plan, draws the secret and publishes its seal. There is no way back. */
export async function openTrial(
  tx: Transaction,
  actor: Actor,
  input: { readonly trialId: string; readonly minimum: TrialPlan["minimum"] },
  now: Date,
): Promise<Result<null, OpenRefusal>> {
  const authorised = await authoriseLead(tx, actor, input.trialId);
  if (!authorised.ok) return authorised;
  const trialId = authorised.value;
  await lockTrial(tx, trialId);
  const trial = await findLeadTrial(tx, trialId);
  if (trial.status !== "draft") return refuse("TRIAL_NOT_DRAFT");
  if (trial.arms.length < ARMS_PER_TRIAL.min) return refuse("TOO_FEW_RECIPES");
  if (!trial.regions.some(({ capacity }) => capacity > 0)) return refuse("NO_REGION");
  if (groupingFaults(trial.grouping).length > 0) return refuse("GROUPING_FAULTY");
  if (trial.endsOn <= now.toISOString().slice(0, 10)) return refuse("ENDS_IN_PAST");

  const arms = trial.arms.map(({ code, content, contentHash }) => ({
    code,
    grain: content.grain,
    variantHash: contentHash,
  }));
  const plan = planOf({ ...trial, arms, choices: { ...DEFAULT_PLAN_CHOICES, minimum: input.minimum } });
  const secretHex = newSecretHex();
  const sealed = { trialId, planHash: planHash(plan), seal: sealOf(secretHex) };
  await markOpened(tx, trialId, {
    plan,
    planHash: sealed.planHash,
    seal: sealed.seal,
    chainStart: chainStart(sealed),
    ciphertext: sealSecret(secretHex),
  });
  await insertAuditEntry(tx, {
    growerId: actor.growerId,
    action: "trial.opened",
    subjectId: trialId,
    detail: { planHash: sealed.planHash, seal: sealed.seal },
  });
  return done(null);
}

/** Closes the actor's open trial: publishes the secret and has the results worked out a last time. */
export async function closeTrial(
  tx: Transaction,
  actor: Actor,
  trialIdAsked: string,
  now: Date,
): Promise<Result<{ readonly trialId: string }, "NOT_FOUND" | "TRIAL_NOT_OPEN">> {
  const authorised = await authoriseLead(tx, actor, trialIdAsked);
  if (!authorised.ok) return authorised;
  const trialId = authorised.value;
  await lockTrial(tx, trialId);
  const trial = await findLeadTrial(tx, trialId);
  if (trial.status !== "open") return refuse("TRIAL_NOT_OPEN");
  await markClosed(tx, trialId, openSecret(await findSecret(tx, trialId)));
  await wantPool(tx, trialId);
  const early = now.toISOString().slice(0, 10) < trial.endsOn;
  await insertAuditEntry(tx, {
    growerId: actor.growerId,
    action: "trial.closed",
    subjectId: trialId,
    detail: { early },
  });
  return done({ trialId });
}
