import { transaction } from "@/lib/data/client";
import { analysisRows, closingOf, keepPoolResult } from "@/lib/data/pool";
import { keepCut, keepPoolFailure, takeCut } from "@/lib/data/pool-state";
import { poolTrial } from "@/lib/engine/statistics/pool-trial";
import { withholdSmallCells } from "@/lib/engine/statistics/withholding";
import type { PoolResult, PoolRow } from "@/shared/schemas/pool";

export interface Pooled {
  /** For the trial's lead. */
  readonly result: PoolResult;
  /** With small cells withheld, for everyone. */
  readonly published: PoolResult;
}

/** How rows become a result: in this process, or in one of its own. */
export type PoolRows = (rows: readonly PoolRow[]) => Promise<Pooled>;

/** Both forms of the result of some rows. */
export function poolBothWays(rows: readonly PoolRow[]): Pooled {
  const result = poolTrial(rows);
  return { result, published: withholdSmallCells(result, rows) };
}

/**
 * Pools a trial over a fresh cut and keeps the result. When pooling fails the failure is kept beside the last
 * good result and thrown on. Does nothing for a trial whose result nobody has wanted.
 */
export async function poolTrialNow(trialId: string, pool: PoolRows): Promise<void> {
  const cut = await transaction(async (tx) => {
    const at = await takeCut(tx, trialId);
    if (!at) return null;
    const closedAt = await closingOf(tx, trialId);
    return { at, rows: await analysisRows(tx, trialId, closedAt ?? undefined) };
  });
  if (!cut) return;
  try {
    const pooled = await pool(cut.rows);
    await transaction(async (tx) => {
      await keepPoolResult(tx, trialId, { ...pooled, boxes: cut.rows.length });
      await keepCut(tx, trialId, { at: cut.at, sha256: pooled.result.data.sha256 });
    });
  } catch (fault) {
    const words = fault instanceof Error ? fault.message : String(fault);
    await transaction((tx) => keepPoolFailure(tx, trialId, words));
    throw fault;
  }
}
