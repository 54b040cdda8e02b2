import type { Transaction } from "@/lib/data/client";
import { transaction } from "@/lib/data/client";
import { keepPoolResult } from "@/lib/data/pool";
import { grainsOfArms, type StoredCut, storedCut } from "@/lib/data/pool-boxes";
import { cutsShown, looksTaken, type PooledTrial, pooledTrial } from "@/lib/data/pool-plan";
import { keepCut, keepPoolFailure, takeCut } from "@/lib/data/pool-state";
import { everyCellAtMinimum } from "@/lib/services/trial-ends";
import type { InterimLook } from "@/shared/schemas/pool";
import type { Pooled, PoolWork } from "./pool-both-ways";
import { type PoolData, poolDataOf } from "./pool-data";
import { levelAt, lookDue, poolOptions } from "./pool-plan";
import { publishableCut } from "./shown-cut";

/** How work becomes a result: in this process, or in one of its own. */
export type Pool = (work: PoolWork) => Promise<Pooled>;

/**
 * Pools a trial over a fresh cut and keeps the result. When pooling fails the failure is kept beside the last
 * good result and thrown on. Does nothing for a trial whose result nobody has wanted.
 */
export async function poolTrialNow(trialId: string, pool: Pool): Promise<void> {
  const taken = await transaction(async (tx) => {
    const at = await takeCut(tx, trialId);
    return at ? { at, ...(await poolWork(tx, trialId, at)) } : null;
  });
  if (!taken) return;
  const { at, work, shown } = taken;
  try {
    const pooled = await pool(work);
    await transaction(async (tx) => {
      await keepPoolResult(tx, trialId, { ...pooled, boxes: work.table.columns.n, shown });
      await keepCut(tx, trialId, { at, sha256: pooled.cut });
    });
  } catch (fault) {
    const words = fault instanceof Error ? fault.message : String(fault);
    await transaction((tx) => keepPoolFailure(tx, trialId, words));
    throw fault;
  }
}

/**
 * A trial's boxes and how its plan has them analysed now, and what the published form is made of, where anyone will see
 * it: to be kept with the result.
 */
export async function poolWork(
  tx: Transaction,
  trialId: string,
  now: Date,
): Promise<{ readonly work: PoolWork; readonly shown: StoredCut | null }> {
  const trial = await pooledTrial(tx, trialId);
  const cut = await storedCut(tx, trialId, trial.closedAt ?? undefined);
  const grainOf = await grainsOfArms(tx, trialId);
  const data = poolDataOf(cut, grainOf);
  const earlier = await looksTaken(tx, trialId);
  const interim = trial.status === "open" ? await interimLook(tx, trialId, trial, data, earlier, now) : null;
  const level = levelAt(interim?.fraction ?? 1, earlier);
  const isShown = trial.status === "closed" || interim !== null;
  const shown = isShown ? publishableCut(cut, await cutsShown(tx, trialId)) : cut;
  const shownData = shown === cut ? undefined : poolDataOf(shown, grainOf);
  return {
    work: { ...data, shownData, options: poolOptions(trial, level, isShown), interim },
    shown: isShown ? shown : null,
  };
}

/** The look that is due and may be had: not before every cell has the plan's minimum. */
async function interimLook(
  tx: Transaction,
  trialId: string,
  trial: PooledTrial,
  { table }: PoolData,
  taken: readonly number[],
  now: Date,
): Promise<InterimLook | null> {
  const measured = table.columns.outcome.reduce((count, y) => count + Number(!Number.isNaN(y)), 0);
  const look = lookDue(trial, { measured, taken, now });
  return look && (await everyCellAtMinimum(tx, trialId, trial.plan)) ? look : null;
}
