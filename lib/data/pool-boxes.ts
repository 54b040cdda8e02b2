import type { Transaction } from "./client";

/**
 * Columns of the boxes as texts, a line each, so that 100,000 boxes are one record and not 100,000; null where there is
 * no box. What a set's boxes share is said once for all of them.
 */
export type StoredBoxes = Readonly<Record<BoxColumn | SetColumn, string | null>> & {
  /** How many boxes, one after the other, each line of a set's columns is about; where there is none, one. */
  readonly sizes?: string | null;
};
/** A line per box. */
export type BoxColumn = "arm" | "box" | "lost" | "take" | "clean" | "days" | "cooked" | "usable";
/** A line per `sizes`. */
export type SetColumn = "grower" | "outing" | "band" | "region" | "grains" | "stood" | "weather" | "reused";

/**
 * The boxes of a trial's analysis, set by set, each drawn box, whatever became of it, as the database's `drawn_boxes`
 * says.
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
 *
 * Nearly every box is told once how it was cooked, so the order of what is told is looked up only where a box was told
 * it in two ways. The database is told to compile nothing, as it would for all the look-ups that don't come, and to keep
 * its tables of 100,000 boxes in memory.
 * @param until when the trial closed: only what the server had received by then counts, and a box not recorded by
 *   then is lost
 */
async function boxesOfAnalysis(tx: Transaction, trialId: string, until?: Date): Promise<StoredBoxes> {
  await tx.$queryRaw`SELECT set_config('jit', 'off', true), set_config('work_mem', '32MB', true)`;
  const [stored] = await tx.$queryRaw<StoredBoxes[]>`
    WITH told AS NOT MATERIALIZED (
      SELECT event.box_id, event.kind, event.occurred_at, event.offset_minutes, event.received_at, event.id
      FROM outing JOIN box ON box.outing_id = outing.id JOIN box_event event ON event.box_id = box.id
      WHERE outing.trial_id = ${trialId}::uuid AND event.received_at <= coalesce(${until ?? null}::timestamptz, 'infinity')
        AND NOT EXISTS (SELECT FROM box_event later
          WHERE later.withdraws_id = event.id AND later.withdraws_id IS NOT NULL
            AND later.received_at <= coalesce(${until ?? null}::timestamptz, 'infinity'))),
    course AS (
      SELECT box_id, max(occurred_at) FILTER (WHERE kind = 'set-out') AS set_out,
        max(occurred_at) FILTER (WHERE kind = 'fetched') AS fetched,
        min(occurred_at + offset_minutes * interval '1 minute') FILTER (WHERE kind = 'set-out') AS first_out,
        min(kind) FILTER (WHERE kind NOT IN ('set-out', 'fetched')) AS cooked,
        max(kind) FILTER (WHERE kind NOT IN ('set-out', 'fetched')) AS cooked_too
      FROM told WHERE kind IN ('set-out', 'fetched', 'cooked-as-drawn', 'cooked-otherwise', 'not-cooked')
      GROUP BY box_id),
    drawn AS MATERIALIZED (
      SELECT drawn.outing_id, drawn.position AS place, drawn.box, arm.code AS arm, drawn.recorded, drawn.lost, drawn.take,
        drawn.clean_take, drawn.measures -> 'usableMassG' ->> 'value' AS grams, course.first_out,
        floor(extract(epoch FROM course.fetched - course.set_out) / 86400)::int AS days,
        CASE WHEN course.cooked = course.cooked_too THEN course.cooked ELSE (
          SELECT kind FROM told
          WHERE told.box_id = drawn.box_id AND kind IN ('cooked-as-drawn', 'cooked-otherwise', 'not-cooked')
          ORDER BY received_at DESC, id DESC LIMIT 1) END AS cooked
      FROM drawn_boxes(${trialId}::uuid, ${until ?? null}::timestamptz) drawn
      JOIN arm ON arm.id = drawn.arm_id
      LEFT JOIN course ON course.box_id = drawn.box_id),
    set_out AS (
      SELECT outing_id, (min(first_out) AT TIME ZONE 'UTC')::date AS day FROM drawn GROUP BY outing_id),
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
    of_set AS (
      SELECT outing_id, count(*) AS size, string_agg(arm, E'\\n' ORDER BY place) AS arm,
        string_agg(box, E'\\n' ORDER BY place) AS box,
        string_agg(CASE WHEN lost THEN '1' ELSE '0' END, E'\\n' ORDER BY place) AS lost,
        string_agg(coalesce(take::text, ''), E'\\n' ORDER BY place) AS take,
        string_agg(CASE clean_take WHEN true THEN '1' WHEN false THEN '0' ELSE '-1' END, E'\\n' ORDER BY place) AS clean,
        string_agg(coalesce(days::text, ''), E'\\n' ORDER BY place) AS days,
        string_agg(coalesce(cooked, ''), E'\\n' ORDER BY place) AS cooked,
        string_agg(coalesce(grams, ''), E'\\n' ORDER BY place) AS usable
      FROM drawn WHERE recorded OR lost GROUP BY outing_id),
    line AS (
      SELECT of_set.*, enrolment.pseudonym AS grower, outing.code AS outing, outing.band, region.code AS region,
        array_to_string(outing.grains_at_hand, ' ') AS grains,
        stood.day || ' ' || (region.south + region.north) / 2 AS stood,
        stood.day > stood.first_at_site AS reused, readings.days AS weather
      FROM of_set
      JOIN outing ON outing.id = of_set.outing_id
      JOIN enrolment ON enrolment.id = outing.enrolment_id
      JOIN region ON region.id = outing.region_id
      JOIN stood ON stood.id = of_set.outing_id
      LEFT JOIN readings ON readings.outing_id = of_set.outing_id)
    SELECT string_agg(size::text, E'\\n' ORDER BY outing) AS sizes, string_agg(grower, E'\\n' ORDER BY outing) AS grower,
      string_agg(outing, E'\\n' ORDER BY outing) AS outing, string_agg(band, E'\\n' ORDER BY outing) AS band,
      string_agg(region, E'\\n' ORDER BY outing) AS region, string_agg(grains, E'\\n' ORDER BY outing) AS grains,
      string_agg(stood, E'\\n' ORDER BY outing) AS stood,
      string_agg(coalesce(weather, ''), E'\\n' ORDER BY outing) AS weather,
      string_agg(CASE WHEN reused THEN '1' ELSE '0' END, E'\\n' ORDER BY outing) AS reused,
      string_agg(arm, E'\\n' ORDER BY outing) AS arm, string_agg(box, E'\\n' ORDER BY outing) AS box,
      string_agg(lost, E'\\n' ORDER BY outing) AS lost, string_agg(take, E'\\n' ORDER BY outing) AS take,
      string_agg(clean, E'\\n' ORDER BY outing) AS clean, string_agg(days, E'\\n' ORDER BY outing) AS days,
      string_agg(cooked, E'\\n' ORDER BY outing) AS cooked, string_agg(usable, E'\\n' ORDER BY outing) AS usable
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
