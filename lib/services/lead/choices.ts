import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { updateChoices } from "@/lib/data/drafts";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { PlanChoices } from "@/shared/schemas/plan";
import { ownDraft } from "./own-draft";

/**
 * Keeps what the actor chose for their draft's plan, in place of what they chose before. Nothing is promised by it
 * until the trial opens, when all of it is checked against the recipes and the last day.
 */
export async function saveChoices(
  tx: Transaction,
  actor: Actor,
  input: { readonly trialId: string; readonly choices: PlanChoices },
): Promise<Result<null, "NOT_FOUND" | "TRIAL_NOT_DRAFT" | "REFERENCE_NOT_IN_TRIAL">> {
  const trial = await ownDraft(tx, actor, input.trialId);
  if (!trial.ok) return trial;
  if (!hasReference(input.choices, trial.value.arms)) return refuse("REFERENCE_NOT_IN_TRIAL");
  await updateChoices(tx, trial.value.id, input.choices);
  return done(null);
}

/** Whether the recipe others are compared with, if the plan names one, is among the trial's. */
export function hasReference(
  { primaryComparison: primary }: PlanChoices,
  arms: readonly { readonly code: string }[],
): boolean {
  return primary.kind !== "against-reference" || arms.some(({ code }) => code === primary.arm);
}
