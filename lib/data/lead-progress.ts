import type { BoxEventKind } from "@/shared/vocabulary/box";
import type { Transaction } from "./client";

/** How far the sets and boxes of one climate group have come, all recipes together. */
export interface GroupProgress {
  readonly band: string;
  readonly households: number;
  readonly sets: number;
  readonly abandonedSets: number;
  readonly boxes: number;
  readonly setOut: number;
  readonly opened: number;
  readonly recorded: number;
  readonly lost: number;
  /** Boxes by growth 0 to 4 of the latest own record; lost ones left out. */
  readonly growth: readonly number[];
  /** The same, region by region: whether the regions bear the group alike. */
  readonly regions: readonly RegionProgress[];
}

export interface RegionProgress {
  readonly region: string;
  readonly households: number;
  readonly sets: number;
  readonly boxes: number;
  readonly recorded: number;
}

/** Boxes whose growth can't be recorded any more, by what happened to them; a box may count under several. */
export interface LossKind {
  readonly kind: BoxEventKind;
  readonly boxes: number;
}

/**
 * By climate group, drawn sets only, counted as the analysis counts them.
 * @param closedAt when the trial closed; what arrived later doesn't count. Null while it is open.
 */
export async function progressByGroup(
  tx: Transaction,
  trialId: string,
  closedAt: Date | null,
): Promise<GroupProgress[]> {
  const rows = await tx.$queryRaw<(RegionProgress & Record<(typeof COUNTS)[number], number> & Classes)[]>`
    SELECT drawn.band, region.name AS region, count(DISTINCT drawn.enrolment_id)::int AS households,
      count(DISTINCT drawn.outing_id)::int AS sets,
      count(DISTINCT drawn.outing_id) FILTER (WHERE abandoned)::int AS "abandonedSets",
      count(*)::int AS boxes, count(*) FILTER (WHERE set_out)::int AS "setOut",
      count(*) FILTER (WHERE opened)::int AS opened, count(*) FILTER (WHERE recorded)::int AS recorded,
      count(*) FILTER (WHERE lost)::int AS lost,
      ARRAY[count(*) FILTER (WHERE take = 0 AND NOT lost), count(*) FILTER (WHERE take = 1 AND NOT lost),
        count(*) FILTER (WHERE take = 2 AND NOT lost), count(*) FILTER (WHERE take = 3 AND NOT lost),
        count(*) FILTER (WHERE take = 4 AND NOT lost)]::int[] AS growth
    FROM drawn_boxes(${trialId}::uuid, ${closedAt}::timestamptz) drawn
    JOIN region ON region.id = drawn.region_id
    GROUP BY drawn.band, region.id ORDER BY drawn.band, region.name`;
  const bands = [...new Set(rows.map(({ band }) => band))];
  return bands.map((band) => {
    const parts = rows.filter((row) => row.band === band);
    // A household has its seat in one region, so that households add up, too.
    const sum = (key: (typeof COUNTS)[number]) => parts.reduce((total, part) => total + part[key], 0);
    return {
      band,
      ...(Object.fromEntries(COUNTS.map((key) => [key, sum(key)])) as Record<
        (typeof COUNTS)[number],
        number
      >),
      growth: [0, 1, 2, 3, 4].map((take) => parts.reduce((total, { growth }) => total + growth[take]!, 0)),
      regions: parts.map(({ region, households, sets, boxes, recorded }) => ({
        ...{ region, households, sets, boxes, recorded },
      })),
    };
  });
}

const COUNTS = [
  "households",
  "sets",
  "abandonedSets",
  "boxes",
  "setOut",
  "opened",
  "recorded",
  "lost",
] as const;

/** A climate group with its boxes by growth. */
type Classes = Pick<GroupProgress, "band" | "growth">;

/** What happened to the boxes whose growth can't be recorded; counted until the trial closed, as `progressByGroup`. */
export async function lossesByKind(
  tx: Transaction,
  trialId: string,
  closedAt: Date | null,
): Promise<LossKind[]> {
  return tx.$queryRaw<LossKind[]>`
    SELECT event.kind, count(DISTINCT event.box_id)::int AS boxes
    FROM drawn_boxes(${trialId}::uuid, ${closedAt}::timestamptz) drawn
    JOIN box_event event ON event.box_id = drawn.box_id
    CROSS JOIN (SELECT coalesce(${closedAt}::timestamptz, 'infinity') AS at) until
    WHERE drawn.unrecordable AND event.received_at <= until.at
      AND event.kind IN ('animal', 'person', 'rain-inside', 'cover-off', 'moved', 'looked-in', 'label-gone', 'nothing-happened')
      AND NOT EXISTS (SELECT FROM box_event later
        WHERE later.withdraws_id = event.id AND later.withdraws_id IS NOT NULL AND later.received_at <= until.at)
    GROUP BY event.kind ORDER BY boxes DESC, event.kind`;
}
