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

/** The stored counts of a trial, or of one of its climate groups. */
export async function talliesOf(tx: Transaction, trialId: string, band?: string): Promise<TallyRow[]> {
  const rows = await tx.drawTally.findMany({ where: { trialId, ...(band === undefined ? {} : { band }) } });
  return rows.map(({ band, region, draws, blocks }) => ({
    band,
    region,
    draws,
    blocks: blocks as unknown as TallyRow["blocks"],
  }));
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

/** The codes of a trial's regions. */
export async function regionCodesOf(tx: Transaction, trialId: string): Promise<string[]> {
  const regions = await tx.trialRegion.findMany({ where: { trialId }, select: { region: true } });
  return regions.map(({ region }) => region.code);
}
