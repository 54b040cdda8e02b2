import type { PoolResult } from "@/shared/schemas/pool";
import type { KoppenClass } from "@/shared/vocabulary/climate";
import type { Transaction } from "./client";

/** A stored result as others than the trial's lead may see it. */
export interface PublishedPool {
  readonly resultId: string;
  /** Null where the caller holds it. */
  readonly published: PoolResult | null;
  readonly computedAt: Date;
  /** Whether something newer is waiting to be worked out. */
  readonly newerWanted: boolean;
  /** Köppen–Geiger classes of the reader's household's places. */
  readonly ownClasses: readonly KoppenClass[];
}

/**
 * The published result of a closed trial, over a cut taken after it closed; null until there is one. A result over
 * an earlier cut stays behind the curtain unless the later cut turned out the same.
 * @param heldIds rows whose result the caller holds and needn't be read
 * @param householdId the reader's, whose places come with the same query
 */
export async function findFinalPool(
  tx: Transaction,
  trialId: string,
  heldIds: readonly string[],
  householdId: string | null,
): Promise<PublishedPool | null> {
  const [pool] = await tx.$queryRaw<PublishedPool[]>`
    SELECT result.id AS "resultId", CASE WHEN NOT result.id = ANY(${heldIds}::uuid[]) THEN result.published END AS published,
      result.computed_at AS "computedAt", state.wanted_at >= state.cut_at AS "newerWanted",
      ARRAY(SELECT DISTINCT koppen_class FROM site WHERE household_id = ${householdId}::uuid ORDER BY 1) AS "ownClasses"
    FROM trial
    JOIN pool_state state ON state.trial_id = trial.id AND state.cut_at >= trial.closed_at
    JOIN pool_result result ON result.trial_id = trial.id AND result.cut_sha256 = state.cut_sha256
    WHERE trial.id = ${trialId}::uuid AND trial.status = 'closed'
    ORDER BY result.computed_at DESC LIMIT 1`;
  return pool ?? null;
}

/**
 * The latest interim look at an open trial, published form, for a household that has had boxes in it and has none
 * pending (drawn, neither recorded nor lost); null for any other and while there was no look. Looks are few by
 * plan, so none is on its way.
 * @param heldIds rows whose result the caller holds and needn't be read
 */
export async function findInterimPool(
  tx: Transaction,
  trialId: string,
  heldIds: readonly string[],
  householdId: string,
): Promise<PublishedPool | null> {
  const [pool] = await tx.$queryRaw<PublishedPool[]>`
    SELECT result.id AS "resultId", CASE WHEN NOT result.id = ANY(${heldIds}::uuid[]) THEN result.published END AS published,
      result.computed_at AS "computedAt", false AS "newerWanted",
      ARRAY(SELECT DISTINCT koppen_class FROM site WHERE household_id = ${householdId}::uuid ORDER BY 1) AS "ownClasses"
    FROM trial
    JOIN enrolment ON enrolment.trial_id = trial.id AND enrolment.household_id = ${householdId}::uuid
    JOIN LATERAL (
      SELECT id, published, computed_at FROM pool_result
      WHERE trial_id = trial.id AND jsonb_typeof(published -> 'interim') = 'object'
      ORDER BY computed_at DESC LIMIT 1) result ON true
    WHERE trial.id = ${trialId}::uuid AND trial.status = 'open'
      AND (SELECT bool_and(drawn.recorded OR drawn.lost) FROM drawn_boxes(trial.id, NULL) drawn
        WHERE drawn.enrolment_id = enrolment.id)`;
  return pool ?? null;
}

/** Where the results of a led trial stand. */
export interface LeadPoolRow {
  readonly slug: string;
  readonly status: "open" | "closed";
  readonly closedAt: Date | null;
  /** Null while the result stays behind the curtain or there is none. */
  readonly resultId: string | null;
  /** The whole result, small cells included; null without one, and where the caller holds it. */
  readonly result: PoolResult | null;
  readonly computedAt: Date | null;
  readonly newerWanted: boolean;
  readonly failedAt: Date | null;
  readonly failure: string | null;
}

/**
 * In one query, for the account that leads the trial only: null for anyone else, for a draft and for no trial. Out
 * is, of a closed trial, the result over a cut taken after the close, of an open one the latest interim look.
 * @param heldIds rows whose result the caller holds and needn't be read
 */
export async function findLeadPool(
  tx: Transaction,
  trialId: string,
  accountId: string,
  heldIds: readonly string[],
): Promise<LeadPoolRow | null> {
  const [row] = await tx.$queryRaw<LeadPoolRow[]>`
    SELECT trial.slug, trial.status, trial.closed_at AS "closedAt", pool.id AS "resultId",
      CASE WHEN NOT pool.id = ANY(${heldIds}::uuid[]) THEN pool.result END AS result, pool.computed_at AS "computedAt", trial.status = 'closed' AND coalesce(state.wanted_at >= state.cut_at, false) AS "newerWanted",
      state.failed_at AS "failedAt", state.failure
    FROM trial
    JOIN trial_lead ON trial_lead.trial_id = trial.id AND trial_lead.account_id = ${accountId}::uuid
    LEFT JOIN pool_state state ON state.trial_id = trial.id
    LEFT JOIN LATERAL (
      SELECT id, result, computed_at FROM pool_result
      WHERE pool_result.trial_id = trial.id AND CASE trial.status
        WHEN 'closed' THEN pool_result.cut_sha256 = state.cut_sha256 AND state.cut_at >= trial.closed_at
        ELSE jsonb_typeof(pool_result.result -> 'interim') = 'object' END
      ORDER BY computed_at DESC LIMIT 1) pool ON true
    WHERE trial.id = ${trialId}::uuid AND trial.status <> 'draft'`;
  return row ?? null;
}
