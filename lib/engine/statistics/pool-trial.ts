import type { PoolNote, PoolRank, PoolResult, PoolRow } from "@/shared/schemas/pool";
import { sha256Hex } from "../random/hash";
import { canonicalRows } from "./canonical-rows";
import { groupBy } from "./grouping";
import { isAnalysed } from "./grower-means";
import { poolTable } from "./pool-table";
import { blocksInBand, rankBlocks } from "./rank-blocks";
import { rankTest } from "./rank-test";
import { lossShare } from "./shares";
import { countRows, summariseArm } from "./summaries";

/** Changes whenever the same rows could give another number. */
export const POOL_ENGINE = "grainlot-pool 1.0.0";

export interface PoolOptions {
  /** Of every interval; 0.95 where not given. */
  readonly level?: number;
  /** Decides the permutations of the rank test; the rows' SHA-256 where not given, so that equal rows agree. */
  readonly seed?: string;
  /** How many permutations; 4,999 where not given. */
  readonly permutations?: number;
}

const DEFAULT_LEVEL = 0.95;
const DEFAULT_PERMUTATIONS = 4999;

/**
 * The pooled result of a trial's rows: cell means by band, by region and over all, shares, losses and the rank
 * test, the grower being the unit throughout. The order of the rows does not matter. Nothing is withheld here:
 * see `withholdSmallCells` for what may be shown to others.
 *
 * Throws when an outcome is not finite, the level is not between 0 and 1, or an outing belongs to two growers,
 * bands or regions: whoever reads rows in refuses those first, with the place of the fault.
 */
export function poolTrial(given: readonly PoolRow[], options: PoolOptions = {}): PoolResult {
  const level = options.level ?? DEFAULT_LEVEL;
  if (!(level > 0 && level < 1)) throw new RangeError(`The level lies between 0 and 1; got ${level}.`);
  refuseSplitOutings(given);
  const { rows, text } = canonicalRows(given);
  const sha256 = sha256Hex(text);
  const seed = options.seed ?? sha256;
  const permutations = options.permutations ?? DEFAULT_PERMUTATIONS;
  const { columns } = poolTable(rows);
  const blocks = rankBlocks(columns);
  const rank = rankTest(blocks, { seed: `${seed}/trial`, permutations });
  const rankByBand = columns.labels.band.map((band, number): PoolRank & { band: string } => ({
    ...rankTest(blocksInBand(blocks, number), { seed: `${seed}/band/${band}`, permutations }),
    band,
  }));
  const byRegion = rows.filter((row) => row.region != null);
  const { reason, ...trialCounts } = countRows(rows);
  return {
    engine: POOL_ENGINE,
    level,
    data: {
      rows: trialCounts.boxes,
      analysed: rows.filter(isAnalysed).length,
      lost: trialCounts.lost,
      unmeasured: trialCounts.unmeasured,
      growers: trialCounts.growers,
      outings: trialCounts.outings,
      sha256,
      reason,
    },
    analysis: null,
    interim: null,
    cells: withGroups(rows, bandOf, (band, own) =>
      withGroups(own, armOf, (arm, cell) => ({ band, ...summariseArm(arm, cell, level) })),
    ).flat(),
    regions: withGroups(byRegion, regionOf, (region, own) =>
      withGroups(own, armOf, (arm, cell) => ({ region, ...summariseArm(arm, cell, level) })),
    ).flat(),
    overall: withGroups(rows, armOf, (arm, own) => summariseArm(arm, own, level)),
    totals: {
      byBand: withGroups(rows, bandOf, (band, own) => ({ band, ...countRows(own) })),
      byRegion: withGroups(byRegion, regionOf, (region, own) => ({ region, ...countRows(own) })),
    },
    rank,
    rankByBand,
    loss: withGroups(rows, armOf, (arm, own) => {
      const { lost, unmeasured } = countRows(own);
      return { arm, lost, unmeasured, ...lossShare(own, level) };
    }),
    notes: notesOn(rows, rank),
  };
}

function withGroups<T>(
  rows: readonly PoolRow[],
  keyOf: (row: PoolRow) => string,
  summarise: (key: string, own: readonly PoolRow[]) => T,
): T[] {
  return [...groupBy(rows, keyOf)].map(([key, own]) => summarise(key, own));
}

const bandOf = (row: PoolRow): string => row.band;
const armOf = (row: PoolRow): string => row.arm;
const regionOf = (row: PoolRow): string => row.region ?? "";

function refuseSplitOutings(rows: readonly PoolRow[]): void {
  const firstOf = new Map<string, PoolRow>();
  for (const row of rows) {
    const first = firstOf.get(row.outing);
    if (!first) {
      firstOf.set(row.outing, row);
    } else if (
      first.grower !== row.grower ||
      first.band !== row.band ||
      (first.region ?? null) !== (row.region ?? null)
    ) {
      throw new RangeError(
        `Outing ${row.outing} has rows of two growers, bands or regions; an outing is one grower at one place.`,
      );
    }
  }
}

function notesOn(rows: readonly PoolRow[], rank: PoolRank): PoolNote[] {
  const notes: PoolNote[] = [];
  if (!rows.some(isAnalysed)) notes.push("NO_ANALYSED_BOXES");
  if (new Set(rows.map(armOf)).size === 1) notes.push("ONE_ARM");
  if (rank.skippedOutings !== null && rank.skippedOutings > 0) notes.push("SINGLE_BOX_OUTINGS_SKIPPED");
  if (rank.warnings.includes("ARMS_NOT_LINKED")) notes.push("ARMS_NOT_LINKED");
  if (rows.some((row) => row.status === "graded" && row.outcome === null)) notes.push("UNMEASURED_BOXES");
  return notes;
}
