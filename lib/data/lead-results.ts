import type { PoolResult } from "@/shared/schemas/pool";
import type { Transaction } from "./client";

/** Where the results of a led trial stand. */
export interface LeadPoolRow {
  readonly slug: string;
  readonly status: "open" | "closed";
  readonly closedAt: Date | null;
  /** The whole result, small cells included; null while it stays behind the curtain or there is none. */
  readonly result: PoolResult | null;
  readonly computedAt: Date | null;
  readonly newerWanted: boolean;
  readonly failedAt: Date | null;
  readonly failure: string | null;
}

/**
 * In one query, for the account that leads the trial only: null for anyone else, for a draft and for no trial. Out
 * is a result over a cut taken after the close, or one marked interim.
 */
export async function findLeadPool(
  tx: Transaction,
  trialId: string,
  accountId: string,
): Promise<LeadPoolRow | null> {
  const [row] = await tx.$queryRaw<LeadPoolRow[]>`
    SELECT trial.slug, trial.status, trial.closed_at AS "closedAt", pool.result,
      pool.computed_at AS "computedAt", coalesce(state.wanted_at >= state.cut_at, false) AS "newerWanted",
      state.failed_at AS "failedAt", state.failure
    FROM trial
    JOIN trial_lead ON trial_lead.trial_id = trial.id AND trial_lead.account_id = ${accountId}::uuid
    LEFT JOIN pool_state state ON state.trial_id = trial.id
    LEFT JOIN LATERAL (
      SELECT result, computed_at FROM pool_result
      WHERE pool_result.trial_id = trial.id AND pool_result.cut_sha256 = state.cut_sha256
        AND (trial.status = 'closed' AND state.cut_at >= trial.closed_at
          OR jsonb_typeof(pool_result.result -> 'interim') = 'object')
      ORDER BY computed_at DESC LIMIT 1) pool ON true
    WHERE trial.id = ${trialId}::uuid AND trial.status <> 'draft'`;
  return row ?? null;
}
