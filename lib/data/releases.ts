import type { PoolResult } from "@/shared/schemas/pool";
import type { ReleaseManifest } from "@/shared/schemas/release";
import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";
import type { PublishedPool } from "./pool-reading";

/** A box as a release tells of it, but for what the analysis knows. */
export interface ReleaseBox {
  readonly outingId: string;
  /** The codes on the labels, to find the analysis' row by. */
  readonly outing: string;
  readonly box: string;
  readonly position: number;
  /** The latest event in force that says how it was cooked. */
  readonly cooked: string | null;
  /** What happened to it, kinds with a space between. */
  readonly happened: string | null;
  /** Grams of all its grain, as the grower's latest record has them. */
  readonly totalMassG: string | null;
}

/** Every drawn box of a closed trial, as what the server had received by `until` has it. */
export function releaseBoxes(tx: Transaction, trialId: string, until: Date): Promise<ReleaseBox[]> {
  return tx.$queryRaw<ReleaseBox[]>`
    WITH told AS (
      SELECT event.box_id, event.kind, event.received_at, event.id
      FROM outing JOIN box ON box.outing_id = outing.id JOIN box_event event ON event.box_id = box.id
      WHERE outing.trial_id = ${trialId}::uuid AND event.received_at <= ${until}::timestamptz
        AND NOT EXISTS (SELECT FROM box_event later
          WHERE later.withdraws_id = event.id AND later.withdraws_id IS NOT NULL
            AND later.received_at <= ${until}::timestamptz)),
    happened AS (
      SELECT box_id, string_agg(DISTINCT kind, ' ' ORDER BY kind) AS kinds FROM told
      WHERE kind IN ('nothing-happened', 'animal', 'person', 'rain-inside', 'cover-off', 'moved', 'looked-in', 'label-gone')
      GROUP BY box_id),
    cooked AS (
      SELECT DISTINCT ON (box_id) box_id, kind FROM told
      WHERE kind IN ('cooked-as-drawn', 'cooked-otherwise', 'not-cooked')
      ORDER BY box_id, received_at DESC, id DESC),
    weighed AS (
      SELECT DISTINCT ON (grade.box_id) grade.box_id, grade.measures -> 'totalMassG' ->> 'value' AS grams
      FROM outing JOIN box ON box.outing_id = outing.id
      JOIN grade ON grade.box_id = box.id AND grade.grader_id = outing.grower_id AND NOT grade.masked
      WHERE outing.trial_id = ${trialId}::uuid AND grade.received_at <= ${until}::timestamptz
      ORDER BY grade.box_id, grade.revision DESC)
    SELECT outing.id::text AS "outingId", outing.code AS outing, box.code AS box, box.position, cooked.kind AS cooked,
      happened.kinds AS happened, weighed.grams AS "totalMassG"
    FROM outing
    JOIN box ON box.outing_id = outing.id
    JOIN allocation ON allocation.box_id = box.id
    LEFT JOIN happened ON happened.box_id = box.id
    LEFT JOIN cooked ON cooked.box_id = box.id
    LEFT JOIN weighed ON weighed.box_id = box.id
    WHERE outing.trial_id = ${trialId}::uuid`;
}

/** The parts of a release that are kept as they were made. */
export interface ReleaseTexts {
  readonly manifest: ReleaseManifest;
  readonly methods: string;
  /** What the command prints for the rows. */
  readonly figures: string;
}

export interface NewRelease {
  readonly id: string;
  readonly trialId: string;
  readonly releasedAt: Date;
  readonly growerId: string;
  readonly rows: string;
  readonly rowsSha256: string;
  readonly analysis: PoolResult;
  readonly texts: ReleaseTexts;
  readonly hash: string;
}

/** Keeps a closed trial's release; false when it has one. The database refuses any other trial's. */
export async function insertRelease(
  tx: Transaction,
  { texts, analysis, ...release }: NewRelease,
): Promise<boolean> {
  const { count } = await tx.trialRelease.createMany({
    data: [
      {
        ...release,
        engine: analysis.engine,
        analysis: analysis as unknown as Prisma.InputJsonValue,
        methods: texts as unknown as Prisma.InputJsonValue,
      },
    ],
    skipDuplicates: true,
  });
  return count === 1;
}

export interface ReleaseHead {
  readonly hash: string;
  readonly releasedAt: Date;
}

export async function findReleaseHead(tx: Transaction, trialId: string): Promise<ReleaseHead | null> {
  return tx.trialRelease.findUnique({ where: { trialId }, select: { hash: true, releasedAt: true } });
}

/**
 * A released trial's result as `findFinalPool` gives others'.
 * @param heldIds rows whose result the caller holds and needn't be read
 * @param householdId the reader's, whose places come with the same query
 */
export async function findReleasedPool(
  tx: Transaction,
  trialId: string,
  heldIds: readonly string[],
  householdId: string | null,
): Promise<PublishedPool | null> {
  const [pool] = await tx.$queryRaw<PublishedPool[]>`
    SELECT id AS "resultId", CASE WHEN NOT id = ANY(${heldIds}::uuid[]) THEN analysis END AS published,
      released_at AS "computedAt", false AS "newerWanted",
      ARRAY(SELECT DISTINCT koppen_class FROM site WHERE household_id = ${householdId}::uuid ORDER BY 1) AS "ownClasses"
    FROM trial_release WHERE trial_id = ${trialId}::uuid`;
  return pool ?? null;
}

/** A release but for its rows and figures, which may be large. */
export async function findReleaseTexts(
  tx: Transaction,
  trialId: string,
): Promise<{ readonly hash: string; readonly texts: ReleaseTexts } | null> {
  const found = await tx.trialRelease.findUnique({
    where: { trialId },
    select: { hash: true, methods: true },
  });
  return found && { hash: found.hash, texts: found.methods as unknown as ReleaseTexts };
}

export async function findReleaseRows(tx: Transaction, trialId: string): Promise<string | null> {
  const found = await tx.trialRelease.findUnique({ where: { trialId }, select: { rows: true } });
  return found?.rows ?? null;
}

export async function findReleaseAnalysis(tx: Transaction, trialId: string): Promise<PoolResult | null> {
  const found = await tx.trialRelease.findUnique({ where: { trialId }, select: { analysis: true } });
  return found ? (found.analysis as unknown as PoolResult) : null;
}
