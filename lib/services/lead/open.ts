import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { type LeadTrialRow, markOpened } from "@/lib/data/lead";
import { chainStart, sealOf } from "@/lib/engine/design/ledger";
import { planHash } from "@/lib/engine/design/plan";
import { done, type Result, refuse } from "@/lib/errors/result";
import { newSecretHex, sealSecret } from "@/lib/services/seal";
import { dayOf } from "@/lib/services/trial-ends";
import { ARMS_PER_TRIAL, type PlanChoices } from "@/shared/schemas/plan";
import { groupingFaults } from "@/shared/vocabulary/climate";
import { hasReference } from "./choices";
import { ownDraft } from "./own-draft";
import { DEFAULT_PLAN_CHOICES, planOf } from "./plan";

/** What stands against opening a draft. */
export type OpeningFault =
  | "TOO_FEW_RECIPES"
  | "NO_REGION"
  | "GROUPING_FAULTY"
  | "ENDS_IN_PAST"
  | "REFERENCE_NOT_IN_TRIAL"
  /** The plan has boxes fetched on a day after the trial's last. */
  | "FETCH_AFTER_END"
  /** The trial would end with fewer boxes than its recipes need in a single climate group. */
  | "ENDS_BEFORE_MINIMUM";

export type OpenRefusal = OpeningFault | "NOT_FOUND" | "TRIAL_NOT_DRAFT";

/**
 * Opens the actor's draft: freezes its plan with the choices made for it, draws the secret and publishes its seal.
 * There is no way back.
 */
export async function openTrial(
  tx: Transaction,
  actor: Actor,
  input: { readonly trialId: string },
  now: Date,
): Promise<Result<null, OpenRefusal>> {
  const draft = await ownDraft(tx, actor, input.trialId);
  if (!draft.ok) return draft;
  const trial = draft.value;
  const choices = trial.choices ?? DEFAULT_PLAN_CHOICES;
  const [fault] = openingFaults(trial, choices, now);
  if (fault) return refuse(fault);

  const arms = trial.arms.map(({ code, content, contentHash }) => ({
    code,
    grain: content.grain,
    variantHash: contentHash,
  }));
  const plan = planOf({ ...trial, arms, choices });
  const secretHex = newSecretHex();
  const sealed = { trialId: trial.id, planHash: planHash(plan), seal: sealOf(secretHex) };
  await markOpened(tx, trial.id, {
    plan,
    planHash: sealed.planHash,
    seal: sealed.seal,
    chainStart: chainStart(sealed),
    ciphertext: sealSecret(secretHex),
  });
  await insertAuditEntry(tx, {
    growerId: actor.growerId,
    action: "trial.opened",
    subjectId: trial.id,
    detail: { planHash: sealed.planHash, seal: sealed.seal },
  });
  return done(null);
}

/** Everything that stands against opening a draft now. */
export function openingFaults(
  trial: Pick<LeadTrialRow, "arms" | "regions" | "grouping" | "endsOn">,
  choices: PlanChoices,
  now: Date,
): OpeningFault[] {
  const { endsAtBoxes, minimum } = choices;
  const fewest = trial.arms.length * minimum.boxesPerCell;
  const isOver = trial.endsOn <= dayOf(now);
  const isFaulty: Record<OpeningFault, boolean> = {
    TOO_FEW_RECIPES: trial.arms.length < ARMS_PER_TRIAL.min,
    NO_REGION: !trial.regions.some(({ capacity }) => capacity > 0),
    GROUPING_FAULTY: groupingFaults(trial.grouping).length > 0,
    ENDS_IN_PAST: isOver,
    REFERENCE_NOT_IN_TRIAL: !hasReference(choices, trial.arms),
    FETCH_AFTER_END: !isOver && lastFetchDay(choices, now) > trial.endsOn,
    ENDS_BEFORE_MINIMUM: endsAtBoxes !== null && endsAtBoxes < fewest,
  };
  return (Object.keys(isFaulty) as OpeningFault[]).filter((fault) => isFaulty[fault]);
}

const DAY_MS = 24 * 3_600_000;

/** The latest planned fetch of boxes set out today, `YYYY-MM-DD`; today where growth decides. */
function lastFetchDay({ fetchRule }: PlanChoices, now: Date): string {
  if (fetchRule.kind === "by-growth") return dayOf(now);
  const days = fetchRule.kind === "same-day" ? fetchRule.afterDays : Math.max(...fetchRule.afterDays);
  return dayOf(new Date(now.getTime() + days * DAY_MS));
}
