import type { PoolArmSummary, PoolCounts, PoolResult } from "@/shared/schemas/pool";
import { publishedAnalysis } from "./analysis-published";
import type { PooledTable } from "./pool-columns";
import type { PoolTable } from "./pool-table";
import { type ArmSlice, showableStandings } from "./standing-withholding";
import { type Atom, type Figure, figuresToHide, MINIMUM } from "./suppression";
import {
  withheldCounts,
  withheldData,
  withheldDistribution,
  withheldMean,
  withheldRank,
  withheldShare,
} from "./withheld-figures";

/** Which boxes a figure adds up: those of a band, a region, an arm, or of some of these together. */
interface Slice {
  readonly band?: string;
  readonly region?: string;
  readonly arm?: string;
}

interface Hidden {
  readonly counts: ReadonlySet<string>;
  readonly growth: ReadonlySet<string>;
  readonly cleanTake: ReadonlySet<string>;
  readonly rank: ReadonlySet<string>;
}

/**
 * The result as others than the rows' owners may see it: no figure rests on fewer than 3 households or 5 boxes,
 * and none that does can be worked out by subtraction across band × arm, region × arm, arms over all, band, region
 * and trial totals. Hidden figures are null with the reason WITHHELD, their counts too.
 *
 * Atoms are region × band × arm. Four kinds of figure are guarded, each over the boxes it rests on: counts and
 * losses (all drawn boxes), mean and distribution (boxes with an outcome), clean take (boxes where it is known),
 * rank tests (boxes that were ranked). Where counts are hidden so is the rest; where growth is, so is clean take.
 * The analysis is made again from the boxes of cells whose figures are all shown, so that nothing in it depends on a
 * hidden cell, and says nothing of single growers. Its means by season and by
 * warmth are held against those guarded already.
 *
 * What one cut gives away against an earlier one: see `nextCut`.
 */
export function withholdSmallCells(pooled: PooledTable): PoolResult {
  const { result } = pooled;
  const hidden = decide(pooled);
  const isWhole = (cell: Slice): boolean =>
    [hidden.counts, hidden.growth, hidden.cleanTake].every((keys) => !keys.has(keyOf(cell)));
  const slices = armSlices(result).map((slice) => ({
    ...slice,
    isHidden: hidden.growth.has(keyOf(slice)),
  }));
  const { seasons, warmth } = result.analysis ?? {};
  const isByStanding = [seasons, warmth].some((by) => by && by.cells.length > 0);
  const standings = isByStanding ? showableStandings(pooled, isWhole, slices) : pooled.extras;
  const analysis = publishedAnalysis(pooled, isWhole, standings);
  const anything = Object.values(hidden).some((keys: ReadonlySet<string>) => keys.size > 0);
  if (!anything) return { ...result, analysis };
  const hide = <T extends Slice & PoolArmSummary>(summary: T): T => hideSummary(summary, hidden);
  const total = <T extends Slice & PoolCounts>(one: T): T =>
    hidden.counts.has(keyOf(one)) ? { ...one, ...withheldCounts } : one;
  return {
    ...result,
    analysis,
    data: hidden.counts.has(keyOf({})) ? { ...result.data, ...withheldData } : result.data,
    cells: result.cells.map(hide),
    regions: result.regions.map(hide),
    overall: result.overall.map(hide),
    totals: {
      byBand: result.totals.byBand.map(total),
      byRegion: result.totals.byRegion.map(total),
    },
    rank: hidden.rank.has(keyOf({})) ? withheldRank(result.rank) : result.rank,
    rankByBand: result.rankByBand.map((rank) =>
      hidden.rank.has(keyOf(rank)) ? { band: rank.band, ...withheldRank(rank) } : rank,
    ),
    loss: result.loss.map((loss) =>
      hidden.counts.has(keyOf(loss))
        ? { ...loss, ...withheldShare(loss), lost: null, unmeasured: null }
        : loss,
    ),
    notes: [...result.notes, "SMALL_CELLS_WITHHELD"],
  };
}

/** Where a recipe's figures are given: by climate group, by region, over all. */
function armSlices({ cells, regions, overall }: PoolResult): ArmSlice[] {
  return [...cells, ...regions, ...overall];
}

function decide({ result, table }: PooledTable): Hidden {
  const arms = armSlices(result);
  const tests: Slice[] = [...result.rankByBand, {}];
  const totals: Slice[] = [...result.totals.byBand, ...result.totals.byRegion, {}];
  const { lost, outcome, outing, labels } = table.columns;
  const isMeasured = (row: number): boolean => lost[row] === 0 && !Number.isNaN(outcome[row]!);
  const isKnown = (row: number): boolean => lost[row] === 0 && (table.cleanTake?.[row] ?? -1) >= 0;
  const measuredInOuting = new Int32Array(labels.outing.length);
  for (let row = 0; row < lost.length; row++) if (isMeasured(row)) measuredInOuting[outing[row]!]!++;
  const isRanked = (row: number): boolean => isMeasured(row) && measuredInOuting[outing[row]!]! > 1;
  const counts = hiddenAmong(
    [...arms, ...totals],
    partsOf(table, () => true),
  );
  const growth = hiddenAmong(arms, partsOf(table, isMeasured), counts);
  const cleanTake = hiddenAmong(arms, partsOf(table, isKnown), growth);
  return { counts, growth, cleanTake, rank: hiddenAmong(tests, partsOf(table, isRanked), counts) };
}

/** An atom and where it lies. */
interface Part extends Atom {
  readonly place: Required<Pick<Slice, "band" | "arm">> & { readonly region: string | null };
}

/** The atoms that the chosen rows make up, by region, band and arm in label order. */
function partsOf({ columns, region }: PoolTable, isChosen: (row: number) => boolean): Part[] {
  const { n, labels, band, arm, grower } = columns;
  const found = new Map<number, { row: number; boxes: number; households: Set<string> }>();
  for (let row = 0; row < n; row++) {
    if (!isChosen(row)) continue;
    const place = (region?.index[row] ?? -1) + 1;
    const key = (place * labels.band.length + band[row]!) * labels.arm.length + arm[row]!;
    let part = found.get(key);
    if (!part) {
      part = { row, boxes: 0, households: new Set() };
      found.set(key, part);
    }
    part.boxes++;
    // Further households than the minimum change nothing.
    if (part.households.size < MINIMUM.households) part.households.add(labels.grower[grower[row]!]!);
  }
  return [...found]
    .sort(([a], [b]) => a - b)
    .map(([, { row, boxes, households }]) => {
      const index = region?.index[row] ?? -1;
      return {
        boxes,
        households,
        place: {
          region: index < 0 ? null : region!.labels[index]!,
          band: labels.band[band[row]!]!,
          arm: labels.arm[arm[row]!]!,
        },
      };
    });
}

/** Keys of slices to hide where figures are made of these parts. */
function hiddenAmong(
  slices: readonly Slice[],
  parts: readonly Part[],
  alreadyHidden: ReadonlySet<string> = new Set(),
): ReadonlySet<string> {
  const figures = slices.map(
    (slice): Figure => ({
      key: keyOf(slice),
      atoms: [...parts.keys()].filter((part) => contains(slice, parts[part]!.place)),
      worth: worthOf(slice),
    }),
  );
  return figuresToHide(parts, figures, alreadyHidden);
}

/**
 * Recipes are compared within a climate group, so its figures are the last to go for another's sake; arms over all
 * groups, no fair comparison anyway, are the first. The trial's totals stay as long as anything else can go.
 */
function worthOf({ band, region, arm }: Slice): number {
  if (band !== undefined) return 2;
  if (region !== undefined) return 1;
  return arm !== undefined ? 0 : 3;
}

function contains({ band, region, arm }: Slice, place: Part["place"]): boolean {
  return (
    (band === undefined || band === place.band) &&
    (region === undefined || region === place.region) &&
    (arm === undefined || arm === place.arm)
  );
}

function keyOf({ band, region, arm }: Slice): string {
  return JSON.stringify([band ?? null, region ?? null, arm ?? null]);
}

function hideSummary<T extends Slice & PoolArmSummary>(summary: T, hidden: Hidden): T {
  const key = keyOf(summary);
  const { counts, mean, distribution, cleanTake } = summary;
  return {
    ...summary,
    counts: hidden.counts.has(key) ? withheldCounts : counts,
    mean: hidden.growth.has(key) ? withheldMean(mean) : mean,
    distribution: hidden.growth.has(key) ? withheldDistribution(distribution) : distribution,
    cleanTake: hidden.cleanTake.has(key) ? withheldShare(cleanTake) : cleanTake,
  };
}
