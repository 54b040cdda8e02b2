import type { Transaction } from "./client";

/** A drawn box as a lead takes it along. Times are instants, in UTC. */
export interface ExportedBox {
  readonly grower: string;
  readonly outing: string;
  readonly position: number;
  readonly box: string;
  readonly band: string;
  readonly region: string;
  /** Null behind the curtain. */
  readonly arm: string | null;
  readonly abandoned: boolean;
  readonly lost: boolean;
  readonly setOutAt: Date | null;
  readonly fetchedAt: Date | null;
  readonly openedAt: Date | null;
  readonly cooked: string | null;
  readonly happened: string | null;
  readonly growth: number | null;
  readonly cleanTake: boolean | null;
  readonly coverPercent: string | null;
  readonly usableMassG: string | null;
  readonly totalMassG: string | null;
  /** How often the grower recorded it, corrections included. */
  readonly records: number;
}

/**
 * Every drawn box of a trial with its events in force and its grower's latest record, by set and place.
 * @param closedAt when the trial closed: only what the server had received by then; null while it is open, and no
 *   recipe then
 */
export function exportedBoxes(
  tx: Transaction,
  trialId: string,
  closedAt: Date | null,
): Promise<ExportedBox[]> {
  return tx.$queryRaw<ExportedBox[]>`
    WITH until AS (SELECT coalesce(${closedAt}::timestamptz, 'infinity') AS at),
    told AS (
      SELECT event.box_id, event.kind, event.occurred_at, event.received_at, event.id
      FROM until, outing JOIN box ON box.outing_id = outing.id JOIN box_event event ON event.box_id = box.id
      WHERE outing.trial_id = ${trialId}::uuid AND event.received_at <= until.at
        AND NOT EXISTS (SELECT FROM box_event later
          WHERE later.withdraws_id = event.id AND later.withdraws_id IS NOT NULL AND later.received_at <= until.at)),
    events AS (
      SELECT box_id, max(occurred_at) FILTER (WHERE kind = 'set-out') AS set_out,
        max(occurred_at) FILTER (WHERE kind = 'fetched') AS fetched,
        max(occurred_at) FILTER (WHERE kind = 'opened') AS opened,
        (array_agg(kind ORDER BY received_at DESC, id DESC)
          FILTER (WHERE kind IN ('cooked-as-drawn', 'cooked-otherwise', 'not-cooked')))[1] AS cooked,
        string_agg(DISTINCT kind, ' ' ORDER BY kind) FILTER (WHERE kind IN
          ('nothing-happened', 'animal', 'person', 'rain-inside', 'cover-off', 'moved', 'looked-in', 'label-gone')) AS happened
      FROM told GROUP BY box_id),
    latest AS (
      SELECT DISTINCT ON (grade.box_id) grade.box_id, grade.measures, grade.revision
      FROM until, outing JOIN box ON box.outing_id = outing.id
      JOIN grade ON grade.box_id = box.id AND grade.grader_id = outing.grower_id AND NOT grade.masked
      WHERE outing.trial_id = ${trialId}::uuid AND grade.received_at <= until.at
      ORDER BY grade.box_id, grade.revision DESC)
    SELECT enrolment.pseudonym AS grower, drawn.outing, drawn.position, drawn.box, drawn.band, region.code AS region,
      CASE WHEN ${closedAt}::timestamptz IS NOT NULL THEN arm.code END AS arm, drawn.abandoned, drawn.lost,
      events.set_out AS "setOutAt", events.fetched AS "fetchedAt", events.opened AS "openedAt", events.cooked,
      events.happened, drawn.take AS growth, drawn.clean_take AS "cleanTake",
      latest.measures -> 'coverPercent' ->> 'value' AS "coverPercent",
      latest.measures -> 'usableMassG' ->> 'value' AS "usableMassG",
      latest.measures -> 'totalMassG' ->> 'value' AS "totalMassG", coalesce(latest.revision, 0) AS records
    FROM drawn_boxes(${trialId}::uuid, ${closedAt}::timestamptz) drawn
    JOIN enrolment ON enrolment.id = drawn.enrolment_id
    JOIN region ON region.id = drawn.region_id
    JOIN arm ON arm.id = drawn.arm_id
    LEFT JOIN events ON events.box_id = drawn.box_id
    LEFT JOIN latest ON latest.box_id = drawn.box_id
    ORDER BY drawn.outing, drawn.position`;
}
