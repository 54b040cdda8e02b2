import { v7 } from "uuid";
import { z } from "zod";
import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { insertArm, updateChoices } from "@/lib/data/drafts";
import { findLeadTrial, type LeadTrialRow } from "@/lib/data/lead";
import { done, type Result, refuse } from "@/lib/errors/result";
import { dayOf } from "@/lib/services/trial-ends";
import { type PlanChoices, planChoicesSchema } from "@/shared/schemas/plan";
import { authoriseLead, mayMakeTrials } from "./authorise";
import { keepDraft } from "./draft";
import { armCode } from "./plan";

/**
 * Makes a draft for another season of a trial the actor leads: the same question, recipes, regions with their seats,
 * climate groups and choices, linked to it, ending on the same day of the first later year in which that is to come.
 */
export async function copyTrial(
  tx: Transaction,
  actor: Actor,
  trialId: string,
  now: Date,
): Promise<
  Result<{ readonly trialId: string }, "NOT_FOUND" | "MAY_NOT_LEAD" | "TRIAL_IS_DRAFT" | "TRY_AGAIN">
> {
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  if (!mayMakeTrials(actor)) return refuse("MAY_NOT_LEAD");
  const trial = await findLeadTrial(tx, authorised.value);
  if (!trial.plan) return refuse("TRIAL_IS_DRAFT");
  const id = v7();
  const { title, question, boxesMin, boxesMax, grouping, regions } = trial;
  const draft = {
    ...{ id, title, question, boxesMin, boxesMax, grouping },
    endsOn: sameDayAhead(trial.endsOn, now),
    regions: regions.map(({ regionId, capacity }) => ({ regionId, capacity })),
    followsId: trial.id,
  };
  if (!(await keepDraft(tx, actor, draft))) return refuse("TRY_AGAIN");
  for (const { variantId, position } of trial.arms) {
    await insertArm(tx, { id: v7(), trialId: id, variantId, position, code: armCode(position) });
  }
  const choices = choicesOf(trial);
  if (choices) await updateChoices(tx, id, choices);
  const { growerId } = actor;
  await insertAuditEntry(tx, { growerId, action: "trial.copied", subjectId: id, detail: { from: trial.id } });
  return done({ trialId: id });
}

function sameDayAhead(endsOn: string, now: Date): string {
  const day = new Date(endsOn);
  do day.setUTCFullYear(day.getUTCFullYear() + 1);
  while (dayOf(day) <= dayOf(now));
  return dayOf(day);
}

/** What the plan holds of a lead's choices, its reference by the code the copy gives it; null for plans of the first form. */
function choicesOf({ plan, arms }: LeadTrialRow): PlanChoices | null {
  if (!plan || !("form" in plan)) return null;
  const choices = z.object(planChoicesSchema.shape).parse(plan);
  const { primaryComparison: primary } = choices;
  if (primary.kind !== "against-reference") return choices;
  const { position } = arms.find(({ code }) => code === primary.arm)!;
  return { ...choices, primaryComparison: { ...primary, arm: armCode(position) } };
}
