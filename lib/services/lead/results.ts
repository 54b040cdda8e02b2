import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { findLeadPool, type LeadPoolRow } from "@/lib/data/pool-reading";
import { done, type Result, refuse } from "@/lib/errors/result";
import { heldResults, type NamedResult } from "@/lib/services/held-results";
import { analysisTable } from "@/lib/services/pool-data";
import { readTrial, type TrialView } from "@/lib/services/read-trials";
import { rowsCsv } from "@/lib/services/rows-csv";
import { isUuid } from "@/shared/schemas/id";

export interface LeadResults {
  readonly trial: TrialView;
  readonly pool: Omit<LeadPoolRow, "resultId" | "result"> & {
    /** The whole result; null while it stays behind the curtain or there is none. */
    readonly stored: NamedResult | null;
  };
}

/** A trial's whole result for its lead, or where it stands; nothing by recipe behind the curtain. */
export async function leadResults(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<LeadResults, "NOT_FOUND">> {
  const held = heldResults("whole");
  const row = isUuid(trialId) ? await findLeadPool(tx, trialId, actor.accountId, held.ids) : null;
  const trial = row ? await readTrial(row.slug, tx) : null;
  if (!row || !trial) return refuse("NOT_FOUND");
  const { resultId, result, ...pool } = row;
  return done({ trial, pool: { ...pool, stored: resultId === null ? null : held.named(resultId, result) } });
}

/** The rows a trial's final result was made of as CSV, for its lead, once the trial has closed. */
export async function leadRows(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<{ readonly slug: string; readonly csv: string }, "NOT_FOUND" | "RESULTS_HIDDEN">> {
  const pool = isUuid(trialId) ? await findLeadPool(tx, trialId, actor.accountId, []) : null;
  if (!pool) return refuse("NOT_FOUND");
  if (pool.status !== "closed") return refuse("RESULTS_HIDDEN");
  const { table } = await analysisTable(tx, trialId, pool.closedAt ?? undefined);
  return done({ slug: pool.slug, csv: rowsCsv(table) });
}
