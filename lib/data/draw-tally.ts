import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";

/** Counts over the draws of one climate group in one region; the form of `blocks` is the engine's tally. */
export interface TallyRow {
  readonly band: string;
  /** The region's code. */
  readonly region: string;
  readonly draws: number;
  readonly blocks: Readonly<Record<string, readonly number[]>>;
}

/**
 * The stored counts of a trial for each of these climate groups in each of its regions; `draws` and `blocks` are
 * null where none are kept.
 */
export async function talliesOf(
  tx: Transaction,
  trialId: string,
  bands: readonly string[],
): Promise<(TallyRow | (Pick<TallyRow, "band" | "region"> & { draws: null; blocks: null }))[]> {
  return tx.$queryRaw`
    SELECT wanted.band, region.code AS region, tally.draws, tally.blocks
    FROM trial_region JOIN region ON region.id = trial_region.region_id
    CROSS JOIN unnest(${bands}::text[]) AS wanted (band)
    LEFT JOIN draw_tally tally ON tally.trial_id = trial_region.trial_id
      AND tally.band = wanted.band AND tally.region = region.code
    WHERE trial_region.trial_id = ${trialId}::uuid`;
}

/** Keeps counts in place of those there are for the same climate group and region. */
export async function keepTallies(
  tx: Transaction,
  trialId: string,
  rows: readonly TallyRow[],
): Promise<void> {
  for (const { band, region, draws, blocks } of rows) {
    const counts = { draws, blocks: blocks as unknown as Prisma.InputJsonValue };
    await tx.drawTally.upsert({
      where: { trialId_band_region: { trialId, band, region } },
      create: { trialId, band, region, ...counts },
      update: counts,
    });
  }
}
