import type { BoxEventKind } from "@/shared/vocabulary/box";
import { TAKE_CLASSES } from "@/shared/vocabulary/growth";
import type { Transaction } from "./client";
import { HAS_BEEN } from "./drawn-boxes";

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
type Counts = Readonly<Record<(typeof COUNTS)[number], number>>;

/** How far the sets and boxes of one climate group have come, all recipes together. */
export interface GroupProgress extends Counts {
  readonly band: string;
  /** Boxes by growth 0 to 4 of the latest own record; lost ones left out. */
  readonly growth: readonly number[];
  /** Whether the regions bear the group alike. */
  readonly regions: readonly RegionProgress[];
}

export interface RegionProgress extends Pick<Counts, "households" | "sets" | "boxes" | "recorded"> {
  readonly region: string;
}

/** What one region holds of a climate group. */
type GroupPart = Omit<GroupProgress, "regions"> & { readonly region: string };

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
  const parts = await tx.$queryRaw<GroupPart[]>`
    SELECT drawn.band, region.name AS region, count(DISTINCT drawn.enrolment_id)::int AS households,
      count(DISTINCT drawn.outing_id)::int AS sets,
      count(DISTINCT drawn.outing_id) FILTER (WHERE abandoned)::int AS "abandonedSets",
      count(*)::int AS boxes, count(*) FILTER (WHERE ${HAS_BEEN.setOut})::int AS "setOut",
      count(*) FILTER (WHERE ${HAS_BEEN.opened})::int AS opened, count(*) FILTER (WHERE recorded)::int AS recorded,
      count(*) FILTER (WHERE lost)::int AS lost,
      ARRAY[count(*) FILTER (WHERE take = 0 AND NOT lost), count(*) FILTER (WHERE take = 1 AND NOT lost),
        count(*) FILTER (WHERE take = 2 AND NOT lost), count(*) FILTER (WHERE take = 3 AND NOT lost),
        count(*) FILTER (WHERE take = 4 AND NOT lost)]::int[] AS growth
    FROM drawn_boxes(${trialId}::uuid, ${closedAt}::timestamptz) drawn
    JOIN region ON region.id = drawn.region_id
    GROUP BY drawn.band, region.id ORDER BY drawn.band, region.name`;
  const bands = [...new Set(parts.map(({ band }) => band))];
  return bands.map((band) => groupOf(parts.filter((part) => part.band === band)));
}

/** The parts of one group put together. A household has its seat in one region, so that households add up, too. */
function groupOf(parts: readonly GroupPart[]): GroupProgress {
  const sumOf = (key: keyof Counts) => parts.reduce((sum, part) => sum + part[key], 0);
  const counts = Object.fromEntries(COUNTS.map((key) => [key, sumOf(key)])) as unknown as Counts;
  return {
    ...counts,
    band: parts[0]!.band,
    growth: TAKE_CLASSES.map((take) => parts.reduce((sum, { growth }) => sum + growth[take]!, 0)),
    regions: parts.map(({ region, households, sets, boxes, recorded }) => ({
      ...{ region, households, sets, boxes, recorded },
    })),
  };
}

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
