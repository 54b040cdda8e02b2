import type { Transaction } from "./client";

/**
 * Notes that a trial's result is out of date, in the transaction of what made it so. The row stays locked until
 * that transaction ends, so that `takeCut` waits for it: a wish is newer than a cut exactly when the cut missed it.
 */
export async function wantPool(tx: Transaction, trialId: string): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO pool_state (trial_id, wanted_at) VALUES (${trialId}::uuid, clock_timestamp())
    ON CONFLICT (trial_id) DO UPDATE SET wanted_at = clock_timestamp()`;
}

/** Waits for wishes under way and gives the moment of the cut; null when the trial was never pooled or wanted. */
export async function takeCut(tx: Transaction, trialId: string): Promise<Date | null> {
  const found = await tx.$queryRaw<{ trial_id: string }[]>`
    SELECT trial_id FROM pool_state WHERE trial_id = ${trialId}::uuid FOR UPDATE`;
  if (found.length === 0) return null;
  // Moments are kept to a millisecond: without the pause, a wish just before would have the cut's and seem unanswered.
  const [clock] = await tx.$queryRaw<{ at: Date }[]>`
    SELECT clock_timestamp()::timestamptz(3) AS at FROM pg_sleep(0.002)`;
  return clock!.at;
}

export async function keepCut(
  tx: Transaction,
  trialId: string,
  cut: { readonly at: Date; readonly sha256: string },
): Promise<void> {
  await tx.poolState.update({
    where: { trialId },
    data: { cutAt: cut.at, cutSha256: cut.sha256, failedAt: null, failure: null },
  });
}

/** The last good cut stays beside the failure. */
export async function keepPoolFailure(tx: Transaction, trialId: string, failure: string): Promise<void> {
  await tx.poolState.update({
    where: { trialId },
    data: { failedAt: new Date(), failure: failure.slice(0, 500) },
  });
}

/** Trials with a wish that no good cut has answered; one whose pool failed since waits ten minutes. */
export async function trialsWaitingForPool(tx: Transaction): Promise<string[]> {
  const waiting = await tx.$queryRaw<{ trial_id: string }[]>`
    SELECT trial_id FROM pool_state
     WHERE (cut_at IS NULL OR wanted_at >= cut_at)
       AND (failed_at IS NULL OR wanted_at > failed_at OR failed_at < now() - interval '10 minutes')`;
  return waiting.map(({ trial_id }) => trial_id);
}

/** One process serves: what still counts as running when it starts was cut off, and would block its trial. */
export async function dropCutOffRuns(tx: Transaction, queue: string): Promise<void> {
  await tx.$executeRaw`DELETE FROM pgboss.job WHERE name = ${queue} AND state = 'active'`;
}
