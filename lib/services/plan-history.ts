import { amendmentsOf, type TrialEnds } from "@/lib/data/amendments";
import type { Transaction } from "@/lib/data/client";
import { recordedBoxes } from "@/lib/data/drawn-boxes";
import { pausesOf, type TrialPause } from "@/lib/data/pauses";
import { findPlanCourse } from "@/lib/data/trials";
import type { StoredPlan } from "@/shared/schemas/plan";
import type { PlanAmendment } from "@/shared/schemas/plan-amendment";
import { dayOf } from "./trial-ends";

export type { TrialPause };

/** A trial's plan and all that came of it, as anyone may read it. */
export interface PlanHistory {
  readonly plan: StoredPlan;
  readonly planHash: string;
  readonly openedAt: Date;
  /** The ends as the plan has them. */
  readonly plannedEnds: TrialEnds;
  /** The ends in force, amendments counted. */
  readonly ends: TrialEnds;
  /** First to last; the first is chained to the plan's hash. */
  readonly amendments: readonly PlanAmendment[];
  /** Times in which it stood still, first to last. */
  readonly pauses: readonly TrialPause[];
  readonly closedAt: Date | null;
  /** Of a closed trial: whether it closed before the end its plan had, or before the end then in force. */
  readonly closedEarly: boolean;
}

/** Null for a draft, whose plan is nobody's to read yet, and for no trial. */
export async function planHistory(tx: Transaction, trialId: string): Promise<PlanHistory | null> {
  const course = await findPlanCourse(tx, trialId);
  if (!course) return null;
  const { closedAt, plannedEnds, ends } = course;
  const closedEarly =
    closedAt !== null &&
    ((await isBefore(tx, trialId, closedAt, plannedEnds)) || (await isBefore(tx, trialId, closedAt, ends)));
  const amendments = await amendmentsOf(tx, trialId);
  return { ...course, amendments, pauses: await pausesOf(tx, trialId), closedEarly };
}

async function isBefore(tx: Transaction, trialId: string, at: Date, ends: TrialEnds): Promise<boolean> {
  if (dayOf(at) >= ends.endsOn) return false;
  return ends.endsAtBoxes === null || (await recordedBoxes(tx, trialId, at)) < ends.endsAtBoxes;
}
