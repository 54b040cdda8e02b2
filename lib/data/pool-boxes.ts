import type { Transaction } from "./client";

/**
 * Every column of the rows as one text, a line per box, so that 100,000 boxes are one record and not 100,000; null
 * where there is no box.
 */
export type StoredBoxes = Readonly<Record<BoxColumn, string | null>>;
export type BoxColumn =
  | ("grower" | "outing" | "band" | "region" | "arm" | "box")
  | ("lost" | "take" | "clean" | "grains" | "days" | "cooked" | "usable" | "stood" | "weather" | "reused");

/**
 * The boxes of a trial's analysis, one row per drawn box, whatever became of it, as the database's `drawn_boxes` says.
 * - The grower is the household, by its pseudonym in the trial. A grade without a take is a graded row whose outcome
 *   is unmeasured.
 * - A box neither recorded nor lost is pending while the trial is open, and no row.
 * - `grains` are those at hand when its outing was committed, spaces between; `days` those from set-out to fetch;
 *   `cooked` the latest event in force that says how the box was cooked; `usable` the grams of usable grain that the
 *   grower's latest grade says were weighed.
 * - `stood` is the day its set was out first, where it was, as events in force have it, else the day it was meant for,
 *   and the latitude of the region's middle: "2026-09-30 42.25". `reused` is 1 where a set of the trial that wasn't
 *   abandoned before it stood at the same site on an earlier day.
 * - `weather` holds the days its grower read, in order: "2026-09-30,8.5,17,0;…", lowest, highest, rain, each empty where
 *   it isn't known.
 * @param until when the trial closed: only what the server had received by then counts, and a box not recorded by
 *   then is lost
 */
async function boxesOfAnalysis(tx: Transaction, trialId: string, until?: Date): Promise<StoredBoxes> {
  const [stored] = await tx.$queryRaw<StoredBoxes[]>`
    WITH told AS (
      SELECT box.outing_id, event.box_id, event.kind, event.occurred_at, event.offset_minutes, event.received_at,
        event.id
      FROM outing JOIN box ON box.outing_id = outing.id JOIN box_event event ON event.box_id = box.id
      WHERE outing.trial_id = ${trialId}::uuid AND event.received_at <= coalesce(${until ?? null}::timestamptz, 'infinity')
        AND event.kind IN ('set-out', 'fetched', 'cooked-as-drawn', 'cooked-otherwise', 'not-cooked')
        AND NOT EXISTS (SELECT FROM box_event later
          WHERE later.withdraws_id = event.id AND later.withdraws_id IS NOT NULL
            AND later.received_at <= coalesce(${until ?? null}::timestamptz, 'infinity'))),
    days AS (
      SELECT box_id, floor(extract(epoch FROM max(occurred_at) FILTER (WHERE kind = 'fetched')
        - max(occurred_at) FILTER (WHERE kind = 'set-out')) / 86400)::int AS days
      FROM told GROUP BY box_id),
    set_out AS (
      SELECT outing_id,
        min((occurred_at AT TIME ZONE 'UTC' + offset_minutes * interval '1 minute')::date) AS day
      FROM told WHERE kind = 'set-out' GROUP BY outing_id),
    stood AS (
      SELECT outing.id, coalesce(set_out.day, outing.day) AS day,
        min(coalesce(set_out.day, outing.day)) FILTER (WHERE set_out.day IS NOT NULL OR outing.status = 'drawn'
          OR (outing.committed_at IS NOT NULL AND outing.abandoned_at > ${until ?? null}::timestamptz))
          OVER (PARTITION BY outing.site_id) AS first_at_site
      FROM outing LEFT JOIN set_out ON set_out.outing_id = outing.id
      WHERE outing.trial_id = ${trialId}::uuid),
    readings AS (
      SELECT day.outing_id, string_agg(
        concat_ws(',', day.day, coalesce(day.min_c::text, ''), coalesce(day.max_c::text, ''), coalesce(day.rain_mm::text, '')),
        ';' ORDER BY day.day) AS days
      FROM outing JOIN exposure_day day ON day.outing_id = outing.id
      WHERE outing.trial_id = ${trialId}::uuid GROUP BY day.outing_id),
    cooking AS (
      SELECT DISTINCT ON (box_id) box_id, kind FROM told
      WHERE kind IN ('cooked-as-drawn', 'cooked-otherwise', 'not-cooked')
      ORDER BY box_id, received_at DESC, id DESC),
    weighing AS (
      SELECT DISTINCT ON (grade.box_id) grade.box_id, grade.measures -> 'usableMassG' ->> 'value' AS grams
      FROM outing JOIN box ON box.outing_id = outing.id
      JOIN grade ON grade.box_id = box.id AND grade.grader_id = outing.grower_id AND NOT grade.masked
      WHERE outing.trial_id = ${trialId}::uuid
        AND grade.received_at <= coalesce(${until ?? null}::timestamptz, 'infinity')
      ORDER BY grade.box_id, grade.revision DESC),
    line AS (
      SELECT row_number() OVER (ORDER BY drawn.outing, drawn.position) AS n, enrolment.pseudonym AS grower, drawn.outing,
        drawn.band, region.code AS region, arm.code AS arm, drawn.box, drawn.lost, drawn.take, drawn.clean_take,
        array_to_string(outing.grains_at_hand, ' ') AS grains, days.days, cooking.kind AS cooked, weighing.grams,
        stood.day || ' ' || (region.south + region.north) / 2 AS stood,
        stood.day > stood.first_at_site AS reused, readings.days AS weather
      FROM drawn_boxes(${trialId}::uuid, ${until ?? null}::timestamptz) drawn
      JOIN arm ON arm.id = drawn.arm_id
      JOIN enrolment ON enrolment.id = drawn.enrolment_id
      JOIN region ON region.id = drawn.region_id
      JOIN outing ON outing.id = drawn.outing_id
      JOIN stood ON stood.id = drawn.outing_id
      LEFT JOIN readings ON readings.outing_id = drawn.outing_id
      LEFT JOIN days ON days.box_id = drawn.box_id
      LEFT JOIN cooking ON cooking.box_id = drawn.box_id
      LEFT JOIN weighing ON weighing.box_id = drawn.box_id
      WHERE drawn.recorded OR drawn.lost)
    SELECT string_agg(grower, E'\\n' ORDER BY n) AS grower, string_agg(outing, E'\\n' ORDER BY n) AS outing,
      string_agg(band, E'\\n' ORDER BY n) AS band, string_agg(region, E'\\n' ORDER BY n) AS region,
      string_agg(arm, E'\\n' ORDER BY n) AS arm, string_agg(box, E'\\n' ORDER BY n) AS box,
      string_agg(CASE WHEN lost THEN '1' ELSE '0' END, E'\\n' ORDER BY n) AS lost,
      string_agg(coalesce(take::text, ''), E'\\n' ORDER BY n) AS take,
      string_agg(CASE clean_take WHEN true THEN '1' WHEN false THEN '0' ELSE '-1' END, E'\\n' ORDER BY n) AS clean,
      string_agg(grains, E'\\n' ORDER BY n) AS grains,
      string_agg(coalesce(days::text, ''), E'\\n' ORDER BY n) AS days,
      string_agg(coalesce(cooked, ''), E'\\n' ORDER BY n) AS cooked,
      string_agg(coalesce(grams, ''), E'\\n' ORDER BY n) AS usable, string_agg(stood, E'\\n' ORDER BY n) AS stood,
      string_agg(coalesce(weather, ''), E'\\n' ORDER BY n) AS weather,
      string_agg(CASE WHEN reused THEN '1' ELSE '0' END, E'\\n' ORDER BY n) AS reused
    FROM line`;
  return stored!;
}

/** The grain that each arm needs, by code. */
export async function grainsOfArms(tx: Transaction, trialId: string): Promise<ReadonlyMap<string, string>> {
  const arms = await tx.arm.findMany({
    where: { trialId },
    select: { code: true, variant: { select: { grain: true } } },
  });
  return new Map(arms.map(({ code, variant }) => [code, variant.grain]));
}

/** A second look at a box's photographs. */
export interface StoredLook {
  readonly outing: string;
  readonly box: string;
  /** Tells graders apart; no result names them. */
  readonly grader: string;
  readonly take: number;
}

/** All that an analysis is made of at a moment. */
export interface StoredCut {
  readonly boxes: StoredBoxes;
  readonly looks: readonly StoredLook[];
}

export async function storedCut(tx: Transaction, trialId: string, until?: Date): Promise<StoredCut> {
  return {
    boxes: await boxesOfAnalysis(tx, trialId, until),
    looks: await secondLooks(tx, trialId, until),
  };
}

/** The latest second look of every grader at every box of a trial, by outing, box and grader. */
async function secondLooks(tx: Transaction, trialId: string, until?: Date): Promise<StoredLook[]> {
  return tx.$queryRaw<StoredLook[]>`
    SELECT DISTINCT ON (outing.code, box.code, grade.grader_id)
      outing.code AS outing, box.code AS box, grade.grader_id AS grader, grade.take
    FROM outing JOIN box ON box.outing_id = outing.id JOIN grade ON grade.box_id = box.id AND grade.masked
    WHERE outing.trial_id = ${trialId}::uuid AND grade.take IS NOT NULL
      AND grade.received_at <= coalesce(${until ?? null}::timestamptz, 'infinity')
    ORDER BY outing.code, box.code, grade.grader_id, grade.revision DESC`;
}
