import type { Transaction } from "./client";
import { Prisma } from "./generated/client";

/**
 * How far a box has come, as conditions on a row `drawn` of `drawn_boxes`. A step that nobody told follows from a later
 * one: what is recorded was opened, what was opened or fetched stood outside, and what stood outside was cooked.
 */
export const HAS_BEEN = {
  cooked: Prisma.sql`(drawn.cooked OR drawn.set_out OR drawn.opened OR drawn.recorded)`,
  setOut: Prisma.sql`(drawn.set_out OR drawn.opened OR drawn.recorded)`,
  opened: Prisma.sql`(drawn.opened OR drawn.recorded)`,
} as const;

/**
 * How many drawn boxes of a trial have been recorded by their own grower.
 * @param until counts only what the server had received by then
 */
export async function recordedBoxes(tx: Transaction, trialId: string, until?: Date): Promise<number> {
  const [row] = await tx.$queryRaw<{ n: number }[]>`
    SELECT count(*)::int AS n FROM outing
    JOIN box ON box.outing_id = outing.id
    JOIN grade ON grade.box_id = box.id AND grade.grader_id = outing.grower_id
      AND NOT grade.masked AND grade.revision = 1
      AND (${until ?? null}::timestamptz IS NULL OR grade.received_at <= ${until ?? null}::timestamptz)
    WHERE outing.trial_id = ${trialId}::uuid`;
  return row!.n;
}

/** What one recipe has in one climate group: recorded boxes that count in the analysis, and their households. */
export interface CellCount {
  readonly arm: string;
  readonly band: string;
  readonly boxes: number;
  readonly households: number;
}

/** Cells of an open trial with any box whose growth was measured and that isn't lost. */
export async function measuredCells(tx: Transaction, trialId: string): Promise<CellCount[]> {
  return tx.$queryRaw<CellCount[]>`
    SELECT arm.code AS arm, drawn.band, count(*)::int AS boxes,
      count(DISTINCT drawn.enrolment_id)::int AS households
    FROM drawn_boxes(${trialId}::uuid, NULL) drawn JOIN arm ON arm.id = drawn.arm_id
    WHERE drawn.take IS NOT NULL AND NOT drawn.lost
    GROUP BY arm.code, drawn.band`;
}
