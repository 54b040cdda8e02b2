import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { findLeadPool, type LeadPoolRow } from "@/lib/data/pool-reading";
import { done, type Result, refuse } from "@/lib/errors/result";
import { analysisTable } from "@/lib/services/pool-data";
import { readTrial, type TrialView, withoutGaps } from "@/lib/services/read-trials";
import { rowsCsv } from "@/lib/services/rows-csv";
import { isUuid } from "@/shared/schemas/id";

export interface LeadResults {
  readonly trial: TrialView;
  readonly pool: LeadPoolRow;
}

/** A trial's whole result for its lead, or where it stands; nothing by recipe behind the curtain. */
export async function leadResults(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<LeadResults, "NOT_FOUND">> {
  const pool = isUuid(trialId) ? await findLeadPool(tx, trialId, actor.accountId) : null;
  const trial = pool ? await readTrial(pool.slug, tx) : null;
  if (!pool || !trial) return refuse("NOT_FOUND");
  return done({ trial, pool: { ...pool, result: pool.result && withoutGaps(pool.result) } });
}

/** The rows a trial's final result was made of as CSV, for its lead, once the trial has closed. */
export async function leadRows(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<{ readonly slug: string; readonly csv: string }, "NOT_FOUND" | "RESULTS_HIDDEN">> {
  const pool = isUuid(trialId) ? await findLeadPool(tx, trialId, actor.accountId) : null;
  if (!pool) return refuse("NOT_FOUND");
  if (pool.status !== "closed") return refuse("RESULTS_HIDDEN");
  const { table } = await analysisTable(tx, trialId, pool.closedAt ?? undefined);
  return done({ slug: pool.slug, csv: rowsCsv(table) });
}
