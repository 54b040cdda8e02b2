import { v7 } from "uuid";
import type { PoolResult, PoolRow } from "@/shared/schemas/pool";
import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";

interface StoredRow {
  grower: string;
  outing: string;
  band: string;
  region: string;
  arm: string;
  box: string;
  abandoned: boolean;
  unrecordable: boolean;
  graded: boolean;
  take: number | null;
  clean_take: boolean | null;
}

const END_OF_TIME = new Date("9999-12-31T00:00:00Z");

/**
 * The rows of a trial's analysis, one per drawn box, whatever became of it.
 * - The grower is the household, by its pseudonym in the trial. The outcome is the take of the latest unmasked
 *   revision by the outing's own grower; a grade without a take is a graded row whose outcome is unmeasured.
 * - Lost: the set of boxes was abandoned and the box has no grade; or the latest event in force on the matter
 *   says that growth can't be recorded, whatever grade there is. Events withdrawn count for nothing.
 * - A box without any of these is pending while the trial is open, and no row; `until` is given when the trial
 *   has closed, and then it is lost: it was never recorded.
 * @param until counts only what the server had received by then.
 */
export async function analysisRows(tx: Transaction, trialId: string, until?: Date): Promise<PoolRow[]> {
  const latest = until ?? END_OF_TIME;
  const stored = await tx.$queryRaw<StoredRow[]>`
    SELECT enrolment.pseudonym AS grower, outing.code AS outing, outing.band AS band, region.code AS region,
           arm.code AS arm, box.code AS box, outing.status = 'abandoned' AS abandoned,
           COALESCE(matter.kind = 'growth-not-recordable', false) AS unrecordable,
           own.id IS NOT NULL AS graded, own.take AS take, own.clean_take AS clean_take
      FROM allocation
      JOIN arm ON arm.id = allocation.arm_id
      JOIN box ON box.id = allocation.box_id
      JOIN outing ON outing.id = box.outing_id
      JOIN enrolment ON enrolment.id = outing.enrolment_id
      JOIN region ON region.id = outing.region_id
      LEFT JOIN LATERAL (
        SELECT grade.id, grade.take, grade.clean_take FROM grade
         WHERE grade.box_id = box.id AND grade.grader_id = outing.grower_id AND NOT grade.masked
           AND grade.received_at <= ${latest}
         ORDER BY grade.revision DESC LIMIT 1) own ON true
      LEFT JOIN LATERAL (
        SELECT event.kind FROM box_event event
         WHERE event.box_id = box.id AND event.kind IN ('growth-recordable', 'growth-not-recordable')
           AND event.received_at <= ${latest}
           AND NOT EXISTS (SELECT FROM box_event later
                            WHERE later.withdraws_id = event.id AND later.received_at <= ${latest})
         ORDER BY event.received_at DESC, event.id DESC LIMIT 1) matter ON true
     WHERE outing.trial_id = ${trialId}::uuid
     ORDER BY outing.code, box.position`;
  return stored.flatMap((row) => {
    const lost = row.unrecordable || (!row.graded && (row.abandoned || until !== undefined));
    if (!row.graded && !lost) return [];
    return [toPoolRow(row, lost)];
  });
}

function toPoolRow(row: StoredRow, lost: boolean): PoolRow {
  const { grower, outing, band, region, arm, box } = row;
  const place = { grower, outing, band, region, arm, box };
  return lost
    ? { ...place, outcome: null, cleanTake: null, status: "lost" }
    : { ...place, outcome: row.take, cleanTake: row.clean_take, status: "graded" };
}

/** When the trial closed, which is where its analysis ends; null before. */
export async function closingOf(tx: Transaction, trialId: string): Promise<Date | null> {
  const { closedAt } = await tx.trial.findUniqueOrThrow({
    where: { id: trialId },
    select: { closedAt: true },
  });
  return closedAt;
}

/** Keeps a result. The same cut pooled by the same engine again changes nothing. */
export async function keepPoolResult(
  tx: Transaction,
  trialId: string,
  pooled: { readonly result: PoolResult; readonly published: PoolResult; readonly boxes: number },
): Promise<void> {
  const { result, published, boxes } = pooled;
  await tx.poolResult.createMany({
    data: {
      id: v7(),
      trialId,
      cutSha256: result.data.sha256,
      engine: result.engine,
      boxes,
      result: result as unknown as Prisma.InputJsonValue,
      published: published as unknown as Prisma.InputJsonValue,
    },
    skipDuplicates: true,
  });
}
