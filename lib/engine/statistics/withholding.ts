import type {
  PoolArmSummary,
  PoolCounts,
  PoolDistribution,
  PoolMean,
  PoolRank,
  PoolResult,
  PoolRow,
  PoolShare,
} from "@/shared/schemas/pool";
import { groupBy } from "./grouping";
import { isAnalysed } from "./grower-means";
import { type Atom, type Figure, figuresToHide } from "./suppression";

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
 *
 * `rows` are those the result was made of. What one cut gives away against an earlier one is for whoever decides
 * which cut is shown.
 */
export function withholdSmallCells(result: PoolResult, rows: readonly PoolRow[]): PoolResult {
  const hidden = decide(result, rows);
  const anything = Object.values(hidden).some((keys: ReadonlySet<string>) => keys.size > 0);
  if (!anything) return result;
  const hide = <T extends Slice & PoolArmSummary>(summary: T): T => hideSummary(summary, hidden);
  const total = <T extends Slice & PoolCounts>(one: T): T =>
    hidden.counts.has(keyOf(one)) ? { ...one, ...withheldCounts } : one;
  return {
    ...result,
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

function decide(result: PoolResult, rows: readonly PoolRow[]): Hidden {
  const arms: Slice[] = [...result.cells, ...result.regions, ...result.overall];
  const tests: Slice[] = [...result.rankByBand, {}];
  const totals: Slice[] = [...result.totals.byBand, ...result.totals.byRegion, {}];
  const counts = hiddenAmong([...arms, ...totals], rows);
  const growth = hiddenAmong(arms, rows.filter(isAnalysed), counts);
  const known = rows.filter((row) => row.status === "graded" && typeof row.cleanTake === "boolean");
  const cleanTake = hiddenAmong(arms, known, growth);
  const outings = [...groupBy(rows.filter(isAnalysed), (row) => row.outing).values()];
  const ranked = outings.filter((outing) => outing.length > 1).flat();
  return { counts, growth, cleanTake, rank: hiddenAmong(tests, ranked, counts) };
}

/** Keys of slices to hide where figures are made of these rows. */
function hiddenAmong(
  slices: readonly Slice[],
  rows: readonly PoolRow[],
  alreadyHidden: ReadonlySet<string> = new Set(),
): ReadonlySet<string> {
  const parts = [
    ...groupBy(rows, ({ region, band, arm }) => JSON.stringify([region ?? null, band, arm])).values(),
  ];
  const atoms = parts.map(
    (own): Atom => ({ households: new Set(own.map(({ grower }) => grower)), boxes: own.length }),
  );
  const figures = slices.map(
    (slice): Figure => ({
      key: keyOf(slice),
      atoms: [...parts.keys()].filter((part) => contains(slice, parts[part]![0]!)),
      worth: worthOf(slice),
    }),
  );
  return figuresToHide(atoms, figures, alreadyHidden);
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

function contains({ band, region, arm }: Slice, row: PoolRow): boolean {
  return (
    (band === undefined || band === row.band) &&
    (region === undefined || region === row.region) &&
    (arm === undefined || arm === row.arm)
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

const withheldBase = { boxes: null, outings: null, growers: null, reason: "WITHHELD" } as const;
const noInterval = { df: null, lower: null, upper: null, warnings: [] };
const withheldCounts = { ...withheldBase, lost: null, unmeasured: null } satisfies PoolCounts;
const withheldData = {
  rows: null,
  analysed: null,
  lost: null,
  unmeasured: null,
  growers: null,
  outings: null,
  reason: "WITHHELD",
} as const;

function withheldMean({ method }: PoolMean): PoolMean {
  return { method, ...withheldBase, ...noInterval, estimate: null, se: null };
}

function withheldDistribution({ method }: PoolDistribution): PoolDistribution {
  return { method, ...withheldBase, classes: null, warnings: [] };
}

function withheldShare({ method }: PoolShare): PoolShare {
  const figures = { count: null, share: null, designEffect: null, effectiveN: null };
  return { method, ...withheldBase, ...noInterval, ...figures };
}

function withheldRank({ method, clustered }: PoolRank): PoolRank {
  const none = { p: null, growers: null, reason: "WITHHELD", warnings: [] } as const;
  return {
    method,
    ...withheldBase,
    skippedOutings: null,
    chiSquare: null,
    df: null,
    p: null,
    clustered: {
      method: clustered.method,
      statistic: null,
      df1: null,
      df2: null,
      permutations: null,
      seed: null,
      ...none,
      warnings: [],
    },
    warnings: [],
  };
}
