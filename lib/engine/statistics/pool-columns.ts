import type { PoolArmSummary, PoolNote, PoolRank, PoolResult } from "@/shared/schemas/pool";
import { analyseTable } from "./analysis-of-table";
import type { AnalysisPlan } from "./analysis-plan";
import { canonicalTable, type StreamingSha256 } from "./canonical-columns";
import type { PoolColumns } from "./columns";
import { RANDOM_TERMS } from "./mixed/types";
import { extrasOf, NO_EXTRAS, type PoolExtras } from "./pool-extras";
import type { PoolTable } from "./pool-table";
import { type GroupTally, rowsByGrower, tallyGroups } from "./pool-tallies";
import { blocksInBand, rankBlocks } from "./rank-blocks";
import { rankTest } from "./rank-test";
import { lossShare } from "./shares";
import { countsOf, summariseArm } from "./summaries";

/** Changes whenever the same rows could give another number. */
export const POOL_ENGINE = "grainlot-pool 2.3.0";

/** What isn't given is as in `DEFAULT_PLAN`; the seed is then the rows' SHA-256, so that equal rows agree. */
export interface PoolOptions extends Partial<AnalysisPlan> {
  /** Begins a SHA-256 by a faster implementation than the engine's own. */
  readonly newHash?: () => StreamingSha256;
}

const DEFAULT_PLAN: Omit<AnalysisPlan, "seed"> = {
  level: 0.95,
  permutations: 4999,
  random: RANDOM_TERMS,
  margin: null,
  primary: null,
  reference: null,
  minimum: { boxesPerCell: 5, growersPerCell: 3 },
  factors: new Map(),
  sensitivity: false,
  byGrower: false,
};

/** A result with what it was made of, rows in canonical order. */
export interface PooledTable {
  readonly result: PoolResult;
  readonly table: PoolTable;
  readonly extras: PoolExtras;
  readonly plan: AnalysisPlan;
  readonly newHash?: PoolOptions["newHash"];
}

/**
 * The pooled result of a table: the mixed model with all that rests on it, and beside it cell means by band, by region
 * and over all, shares, losses and the rank test, the grower being the unit throughout. The order of the rows does
 * not matter. Time and memory grow linearly with the rows. Nothing is withheld here: see `withholdSmallCells` for
 * what may be shown to others.
 *
 * Throws when an outcome is infinite, the level is not between 0 and 1, or an outing belongs to two growers, bands,
 * regions or availability sets: whoever reads rows in refuses those first, with the place of the fault.
 */
export function poolColumns(
  given: PoolTable,
  givenExtras: PoolExtras = NO_EXTRAS,
  { newHash, ...options }: PoolOptions = {},
): PooledTable {
  refuseSplitOutings(given);
  const { table, sha256, order } = canonicalTable(given, newHash?.());
  const extras = extrasOf(givenExtras, order);
  const plan: AnalysisPlan = { ...DEFAULT_PLAN, seed: sha256, ...definedOf(options) };
  if (!(plan.level > 0 && plan.level < 1))
    throw new RangeError(`The level lies between 0 and 1; got ${plan.level}.`);
  return { result: resultOf(table, sha256, extras, plan), table, extras, plan, newHash };
}

function definedOf<T extends object>(options: T): Partial<T> {
  return Object.fromEntries(Object.entries(options).filter(([, value]) => value !== undefined)) as Partial<T>;
}

function resultOf(table: PoolTable, sha256: string, extras: PoolExtras, plan: AnalysisPlan): PoolResult {
  const { columns } = table;
  const { level, seed, permutations } = plan;
  const blocks = rankBlocks(columns);
  const rank = rankTest(blocks, { seed: `${seed}/trial`, permutations });
  const rankByBand = columns.labels.band.map((band, number): PoolRank & { band: string } => ({
    ...rankTest(blocksInBand(blocks, number), { seed: `${seed}/band/${band}`, permutations }),
    band,
  }));
  const { all, byArm, byBand, byRegion, cells, regions } = talliesOf(table);
  const { arm, band } = columns.labels;
  const region = table.region?.labels ?? [];
  const summary = (name: string, tally: GroupTally): PoolArmSummary => summariseArm(name, tally, level);
  const { boxes: rows, reason, ...counts } = countsOf(all);
  return {
    engine: POOL_ENGINE,
    level,
    data: { rows, analysed: all.measured.boxes, ...counts, sha256, reason },
    analysis: analyseTable(table, extras, plan),
    interim: null,
    cells: filled(cells).map(([i, tally]) => ({
      band: band[Math.floor(i / arm.length)]!,
      ...summary(arm[i % arm.length]!, tally),
    })),
    regions: filled(regions).map(([i, tally]) => ({
      region: region[Math.floor(i / arm.length)]!,
      ...summary(arm[i % arm.length]!, tally),
    })),
    overall: filled(byArm).map(([i, tally]) => summary(arm[i]!, tally)),
    totals: {
      byBand: filled(byBand).map(([i, tally]) => ({ band: band[i]!, ...countsOf(tally) })),
      byRegion: filled(byRegion).map(([i, tally]) => ({ region: region[i]!, ...countsOf(tally) })),
    },
    rank,
    rankByBand,
    loss: filled(byArm).map(([i, tally]) => {
      const { lost, unmeasured } = tally;
      return { arm: arm[i]!, lost, unmeasured, ...lossShare(tally, level) };
    }),
    notes: notesOn(all, filled(byArm).length, rank),
  };
}

function talliesOf(table: PoolTable) {
  const { columns, region } = table;
  const { labels, arm, band } = columns;
  const order = rowsByGrower(columns);
  const tally = (groupOf: Int32Array, groups: number) => tallyGroups(table, order, groupOf, groups);
  const none = new Int32Array(columns.n).fill(-1);
  const arms = labels.arm.length;
  const regions = region?.labels.length ?? 0;
  return {
    all: tally(new Int32Array(columns.n), 1)[0]!,
    byArm: tally(arm, arms),
    byBand: tally(band, labels.band.length),
    byRegion: tally(region?.index ?? none, regions),
    cells: tally(
      band.map((own, row) => own * arms + arm[row]!),
      labels.band.length * arms,
    ),
    regions: tally(
      region?.index.map((own, row) => (own < 0 ? -1 : own * arms + arm[row]!)) ?? none,
      regions * arms,
    ),
  };
}

/** Groups with boxes, by number. */
function filled(tallies: readonly GroupTally[]): (readonly [number, GroupTally])[] {
  return [...tallies.entries()].filter(([, { boxes }]) => boxes > 0);
}

function refuseSplitOutings({ columns, region }: PoolTable): void {
  const { n, labels, outing } = columns;
  const first = new Int32Array(labels.outing.length);
  for (let row = n - 1; row >= 0; row--) first[outing[row]!] = row;
  const fixed = [columns.grower, columns.band, columns.availability, ...(region ? [region.index] : [])];
  let split = n;
  for (const column of fixed)
    for (let row = 0; row < split; row++) if (column[row] !== column[first[outing[row]!]!]) split = row;
  if (split < n) throw splitOuting(columns, split);
}

function splitOuting({ labels, outing }: PoolColumns, row: number): RangeError {
  return new RangeError(
    `Outing ${labels.outing[outing[row]!]} has rows of two growers, bands, regions or sets of arms at hand; an ` +
      "outing is one grower at one place.",
  );
}

function notesOn(all: GroupTally, arms: number, rank: PoolRank): PoolNote[] {
  const notes: PoolNote[] = [];
  if (all.measured.boxes === 0) notes.push("NO_ANALYSED_BOXES");
  if (arms === 1) notes.push("ONE_ARM");
  if (rank.skippedOutings !== null && rank.skippedOutings > 0) notes.push("SINGLE_BOX_OUTINGS_SKIPPED");
  if (rank.warnings.includes("ARMS_NOT_LINKED")) notes.push("ARMS_NOT_LINKED");
  if (all.unmeasured > 0) notes.push("UNMEASURED_BOXES");
  return notes;
}
