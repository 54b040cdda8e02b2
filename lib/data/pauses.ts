import type { PauseReason } from "@/shared/vocabulary/desk";
import type { Transaction } from "./client";

/** A time in which a trial stood still; `resumedAt` is null while it does. */
export interface TrialPause {
  readonly reason: PauseReason;
  readonly pausedAt: Date;
  readonly resumedAt: Date | null;
}

/** Keeps a pause; false when one stands already. */
export async function insertPause(
  tx: Transaction,
  pause: { id: string; trialId: string; growerId: string; reason: PauseReason; pausedAt: Date },
): Promise<boolean> {
  const { count } = await tx.trialPause.createMany({ data: [pause], skipDuplicates: true });
  return count === 1;
}

/** Ends the pause that stands; false when none does. */
export async function endPause(tx: Transaction, trialId: string, at: Date): Promise<boolean> {
  const ended = await tx.$executeRaw`
    UPDATE trial_pause SET resumed_at = greatest(${at}::timestamptz, paused_at)
    WHERE trial_id = ${trialId}::uuid AND resumed_at IS NULL`;
  return ended === 1;
}

/** A trial's pauses, first to last. */
export async function pausesOf(tx: Transaction, trialId: string): Promise<TrialPause[]> {
  const pauses = await tx.trialPause.findMany({ where: { trialId }, orderBy: { pausedAt: "asc" } });
  return pauses.map(pauseOf);
}

/** The pause that stands, or null. */
export async function standingPause(tx: Transaction, trialId: string): Promise<TrialPause | null> {
  const pause = await tx.trialPause.findFirst({ where: { trialId, resumedAt: null } });
  return pause && pauseOf(pause);
}

/** The pauses that stand in trials a household takes part in, with the trials' titles. */
export async function pausesForHousehold(
  tx: Transaction,
  householdId: string,
): Promise<(TrialPause & { readonly trialTitle: string; readonly trialSlug: string })[]> {
  const pauses = await tx.trialPause.findMany({
    where: { resumedAt: null, trial: { enrolments: { some: { householdId, leftAt: null } } } },
    include: { trial: { select: { title: true, slug: true } } },
    orderBy: { pausedAt: "asc" },
  });
  return pauses.map(({ trial, ...pause }) => ({
    ...pauseOf(pause),
    trialTitle: trial.title,
    trialSlug: trial.slug,
  }));
}

function pauseOf(row: { reason: string; pausedAt: Date; resumedAt: Date | null }): TrialPause {
  return { reason: row.reason as PauseReason, pausedAt: row.pausedAt, resumedAt: row.resumedAt };
}
