import { ODD_SIGNS, type OddSign } from "@/shared/vocabulary/desk";
import type { Transaction } from "./client";

/** A box whose record looks odd, and why. Nothing here knows its recipe. */
export interface OddRecord {
  readonly boxCode: string;
  readonly sign: OddSign;
}

/** Cooked grain weighs about 0.7 to 1.1 g/mL in a box; more than this is a slip of the pen. From memory. */
const HEAVIEST_G_PER_ML = 1.3;

/** A box opened so many days ago should have its record. */
const RECORD_WITHIN_DAYS = 3;

/**
 * A trial's odd records in the order of their boxes; a box whose grower has been asked about it, or has said that the
 * record stands, isn't named again.
 */
export function oddRecords(
  tx: Transaction,
  trialId: string,
  { now, skip, take }: { readonly now: Date; readonly skip: number; readonly take: number },
): Promise<OddRecord[]> {
  const openedBefore = new Date(now.getTime() - RECORD_WITHIN_DAYS * 24 * 3_600_000);
  return tx.$queryRaw<OddRecord[]>`
    WITH own AS (
      SELECT DISTINCT ON (grade.box_id) grade.box_id, grade.take,
        (measures -> 'coverPercent' ->> 'value')::float8 AS cover,
        (measures -> 'coverClass' ->> 'value')::int AS picture,
        (measures -> 'usableMassG' ->> 'value')::float8 AS usable_g,
        (measures -> 'totalMassG' ->> 'value')::float8 AS total_g,
        (SELECT coalesce(sum((colour.value ->> 'value')::float8), 0)
          FROM jsonb_each(measures -> 'offColourPercent') colour) AS other_colours,
        outing.inner_length_cm * outing.inner_width_cm * outing.grain_depth_cm AS volume_ml
      FROM outing JOIN box ON box.outing_id = outing.id
      JOIN grade ON grade.box_id = box.id AND grade.grader_id = outing.grower_id AND NOT grade.masked
      WHERE outing.trial_id = ${trialId}::uuid
      ORDER BY grade.box_id, grade.revision DESC),
    told AS (
      SELECT event.box_id, min(event.occurred_at) FILTER (WHERE event.kind = 'set-out') AS set_out,
        min(event.occurred_at) FILTER (WHERE event.kind = 'fetched') AS fetched,
        min(event.occurred_at) FILTER (WHERE event.kind = 'opened') AS opened
      FROM outing JOIN box ON box.outing_id = outing.id JOIN box_event event ON event.box_id = box.id
      WHERE outing.trial_id = ${trialId}::uuid AND event.kind IN ('set-out', 'fetched', 'opened')
        AND NOT EXISTS (SELECT FROM box_event later
          WHERE later.withdraws_id = event.id AND later.withdraws_id IS NOT NULL)
      GROUP BY event.box_id),
    odd AS (
      SELECT box_id, 'too-heavy' AS sign FROM own WHERE total_g > ${HEAVIEST_G_PER_ML}::float8 * volume_ml
      UNION ALL SELECT box_id, 'usable-without-growth' FROM own WHERE take = 0 AND usable_g > 0
      UNION ALL SELECT box_id, 'picture-differs' FROM own WHERE picture <> CASE
        WHEN cover = 0 THEN 0 WHEN cover < 10 THEN 1 WHEN cover < 30 THEN 2 WHEN cover <= 60 THEN 3 ELSE 4 END
        AND cover IS NOT NULL
      UNION ALL SELECT box_id, 'over-hundred' FROM own WHERE cover + other_colours > 100
      UNION ALL SELECT box_id, 'times-order' FROM told
        WHERE fetched < set_out OR opened < set_out OR opened < fetched
      UNION ALL SELECT told.box_id, 'not-recorded' FROM told
        JOIN drawn_boxes(${trialId}::uuid, NULL) drawn ON drawn.box_id = told.box_id
        WHERE told.opened < ${openedBefore}::timestamptz AND NOT drawn.recorded AND NOT drawn.lost)
    SELECT box.code AS "boxCode", odd.sign FROM odd JOIN box ON box.id = odd.box_id
    WHERE NOT EXISTS (SELECT FROM correction_request request
      WHERE request.box_id = odd.box_id AND request.kind = ${JSON.stringify(ODD_SIGNS)}::jsonb ->> odd.sign
        AND (request.answered_at IS NULL OR request.answer = 'stands'))
    ORDER BY box.code, odd.sign OFFSET ${skip} LIMIT ${take}`;
}
