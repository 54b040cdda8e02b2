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
  recorded: boolean;
  lost: boolean;
  take: number | null;
  clean_take: boolean | null;
}

/**
 * The rows of a trial's analysis, one per drawn box, whatever became of it, as the database's `drawn_boxes` says.
 * - The grower is the household, by its pseudonym in the trial. A grade without a take is a graded row whose outcome
 *   is unmeasured.
 * - A box neither recorded nor lost is pending while the trial is open, and no row.
 * @param until when the trial closed: only what the server had received by then counts, and a box not recorded by
 *   then is lost
 */
export async function analysisRows(tx: Transaction, trialId: string, until?: Date): Promise<PoolRow[]> {
  const stored = await tx.$queryRaw<StoredRow[]>`
    SELECT enrolment.pseudonym AS grower, drawn.outing, drawn.band, region.code AS region, arm.code AS arm, drawn.box,
           drawn.recorded, drawn.lost, drawn.take, drawn.clean_take
      FROM drawn_boxes(${trialId}::uuid, ${until ?? null}::timestamptz) drawn
      JOIN arm ON arm.id = drawn.arm_id
      JOIN enrolment ON enrolment.id = drawn.enrolment_id
      JOIN region ON region.id = drawn.region_id
     WHERE drawn.recorded OR drawn.lost
     ORDER BY drawn.outing, drawn.position`;
  return stored.map(toPoolRow);
}

function toPoolRow(row: StoredRow): PoolRow {
  const { grower, outing, band, region, arm, box, lost } = row;
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

/** Keeps a result under the name of its cut. The same cut pooled by the same engine again changes nothing. */
export async function keepPoolResult(
  tx: Transaction,
  trialId: string,
  pooled: {
    readonly result: PoolResult;
    readonly published: PoolResult;
    readonly cut: string;
    readonly boxes: number;
  },
): Promise<void> {
  const { result, published, cut, boxes } = pooled;
  await tx.poolResult.createMany({
    data: {
      id: v7(),
      trialId,
      cutSha256: cut,
      engine: result.engine,
      boxes,
      result: result as unknown as Prisma.InputJsonValue,
      published: published as unknown as Prisma.InputJsonValue,
    },
    skipDuplicates: true,
  });
}
