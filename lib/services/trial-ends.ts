import type { TrialEnds } from "@/lib/data/amendments";
import type { Transaction } from "@/lib/data/client";
import { measuredCells, recordedBoxes } from "@/lib/data/drawn-boxes";
import type { StoredPlan } from "@/shared/schemas/plan";

export type { TrialEnds };

/** The calendar day it is, `YYYY-MM-DD` in UTC. */
export function dayOf(moment: Date): string {
  return moment.toISOString().slice(0, 10);
}

/** Whether a trial has come to its end: its last day has begun, or so many boxes are recorded. */
export async function hasReachedEnd(
  tx: Transaction,
  trialId: string,
  ends: TrialEnds,
  now: Date,
): Promise<boolean> {
  return dayOf(now) >= ends.endsOn || (await hasAllBoxes(tx, trialId, ends));
}

/**
 * Whether a trial, open or not, takes no further draws: its last day is over, or so many boxes are recorded.
 * @param drawnBoxes boxes drawn so far, where the caller knows: fewer than the end asks for need no counting
 */
export async function takesNoMoreDraws(
  tx: Transaction,
  trialId: string,
  ends: TrialEnds,
  now: Date,
  drawnBoxes = Number.POSITIVE_INFINITY,
): Promise<boolean> {
  if (dayOf(now) > ends.endsOn) return true;
  return (
    drawnBoxes >= (ends.endsAtBoxes ?? Number.POSITIVE_INFINITY) && (await hasAllBoxes(tx, trialId, ends))
  );
}

async function hasAllBoxes(tx: Transaction, trialId: string, { endsAtBoxes }: TrialEnds): Promise<boolean> {
  return endsAtBoxes !== null && (await recordedBoxes(tx, trialId)) >= endsAtBoxes;
}

/** Whether each recipe has in each climate group as many boxes and households as the plan asks for. */
export async function everyCellAtMinimum(
  tx: Transaction,
  trialId: string,
  plan: StoredPlan,
): Promise<boolean> {
  const { boxesPerCell, growersPerCell } = plan.minimum;
  const cells = await measuredCells(tx, trialId);
  const full = cells.filter(({ boxes, households }) => boxes >= boxesPerCell && households >= growersPerCell);
  return full.length === plan.arms.length * plan.climateGrouping.length;
}
