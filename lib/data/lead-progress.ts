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
  const rows = await tx.$queryRaw<(Omit<GroupProgress, "growth"> & Record<string, number>)[]>`
    SELECT drawn.band, count(DISTINCT drawn.enrolment_id)::int AS households,
      count(DISTINCT drawn.outing_id)::int AS sets,
      count(DISTINCT drawn.outing_id) FILTER (WHERE abandoned)::int AS "abandonedSets",
      count(*)::int AS boxes, count(*) FILTER (WHERE set_out)::int AS "setOut",
      count(*) FILTER (WHERE opened)::int AS opened, count(*) FILTER (WHERE recorded)::int AS recorded,
      count(*) FILTER (WHERE lost)::int AS lost,
      count(*) FILTER (WHERE take = 0 AND NOT lost)::int AS g0,
      count(*) FILTER (WHERE take = 1 AND NOT lost)::int AS g1,
      count(*) FILTER (WHERE take = 2 AND NOT lost)::int AS g2,
      count(*) FILTER (WHERE take = 3 AND NOT lost)::int AS g3,
      count(*) FILTER (WHERE take = 4 AND NOT lost)::int AS g4
    FROM drawn_boxes(${trialId}::uuid, ${closedAt}::timestamptz) drawn
    GROUP BY drawn.band ORDER BY drawn.band`;
  return rows.map(({ g0, g1, g2, g3, g4, ...rest }) => ({
    ...(rest as Omit<GroupProgress, "growth">),
    growth: [g0!, g1!, g2!, g3!, g4!],
  }));
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
