import type { RandomSource } from "../random/source";

export type KappaWeights = "unweighted" | "linear" | "quadratic";
export type AlphaMetric = "nominal" | "ordinal" | "interval";

/**
 * Cohen's kappa of two graders from their table (`table`[i][j]: boxes the first called i and the second j), with
 * disagreement weights 1 unless equal, |i − j| or (i − j)² (Cohen 1968, Psychological Bulletin 70:213–220).
 * Null where both always use one and the same class, or there is no box.
 */
export function kappa(table: readonly (readonly number[])[], weights: KappaWeights): number | null {
  const n = table.reduce((sum, row) => sum + row.reduce((part, x) => part + x, 0), 0);
  const first = table.map((row) => row.reduce((sum, x) => sum + x, 0));
  const second = table.map((_, j) => table.reduce((sum, row) => sum + row[j]!, 0));
  let [observed, expected] = [0, 0];
  table.forEach((row, i) => {
    row.forEach((count, j) => {
      const w =
        weights === "unweighted" ? Number(i !== j) : weights === "linear" ? Math.abs(i - j) : (i - j) ** 2;
      observed += w * count;
      expected += (w * first[i]! * second[j]!) / n;
    });
  });
  return n > 0 && expected > 0 ? 1 - observed / expected : null;
}

/** The gradings of one box, and the grower it belongs to. */
export interface GradedUnit {
  readonly cluster: string;
  /** Whole numbers from 0, one per grader who graded it. */
  readonly grades: readonly number[];
}

/**
 * Krippendorff's alpha = 1 − D_observed/D_expected for any number of graders, missing gradings allowed (Krippendorff
 * 2004, Content Analysis, 2nd ed., §11.3), over `categories` classes 0 … categories − 1. Boxes graded once say
 * nothing. Null where all gradings are alike or no box was graded twice.
 */
export function krippendorffAlpha(
  units: readonly GradedUnit[],
  categories: number,
  metric: AlphaMetric,
): number | null {
  return alphaOf(
    sumOf(
      units.map((unit) => coincidences(unit, categories)),
      categories,
    ),
    metric,
  );
}

export interface AlphaInterval {
  readonly alpha: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Boxes graded twice or more, and the growers they come from. */
  readonly boxes: number;
  readonly clusters: number;
  readonly resamples: number;
  readonly reason: "NOT_MEASURED" | "TOO_FEW_GROWERS" | null;
}

/** Fewer clusters make a bootstrap over them meaningless. */
const MINIMUM_CLUSTERS = 3;

/**
 * Ordinal alpha with a percentile bootstrap interval at `level`, whole growers drawn with replacement, as boxes of one
 * grower look alike. Resamples in which all gradings are alike have no alpha and are left out.
 */
export function ordinalAlphaInterval(
  units: readonly GradedUnit[],
  categories: number,
  {
    level,
    resamples,
    source,
  }: { readonly level: number; readonly resamples: number; readonly source: RandomSource },
): AlphaInterval {
  const usable = units.filter(({ grades }) => grades.length >= 2);
  const byCluster = new Map<string, number[][]>();
  for (const unit of usable) {
    const own = byCluster.get(unit.cluster);
    const added = coincidences(unit, categories);
    byCluster.set(unit.cluster, own ? sumOf([own, added], categories) : added);
  }
  const tables = [...byCluster.values()];
  const alpha = alphaOf(sumOf(tables, categories), "ordinal");
  const result = {
    alpha,
    lower: null,
    upper: null,
    boxes: usable.length,
    clusters: tables.length,
    resamples,
  };
  if (alpha === null) return { ...result, reason: "NOT_MEASURED" };
  if (tables.length < MINIMUM_CLUSTERS) return { ...result, reason: "TOO_FEW_GROWERS" };
  const alphas: number[] = [];
  for (let round = 0; round < resamples; round++) {
    const chosen = tables.map(() => tables[source.below(tables.length)]!);
    const resampled = alphaOf(sumOf(chosen, categories), "ordinal");
    if (resampled !== null) alphas.push(resampled);
  }
  alphas.sort((a, b) => a - b);
  const tail = (1 - level) / 2;
  return { ...result, lower: quantile(alphas, tail), upper: quantile(alphas, 1 - tail), reason: null };
}

/** A box's coincidence matrix: each ordered pair of its m gradings counts 1/(m − 1). */
function coincidences({ grades }: GradedUnit, categories: number): number[][] {
  const o = Array.from({ length: categories }, () => new Array<number>(categories).fill(0));
  const m = grades.length;
  grades.forEach((a, i) => {
    if (!Number.isInteger(a) || a < 0 || a >= categories)
      throw new RangeError(`A grade is a whole number from 0 to ${categories - 1}; got ${a}.`);
    grades.forEach((b, j) => {
      if (i !== j) o[a]![b]! += 1 / (m - 1);
    });
  });
  return o;
}

function sumOf(tables: readonly (readonly (readonly number[])[])[], categories: number): number[][] {
  const sum = Array.from({ length: categories }, () => new Array<number>(categories).fill(0));
  for (const table of tables) {
    sum.forEach((row, a) => {
      for (let b = 0; b < categories; b++) row[b]! += table[a]![b]!;
    });
  }
  return sum;
}

function alphaOf(o: readonly (readonly number[])[], metric: AlphaMetric): number | null {
  const totals = o.map((row) => row.reduce((sum, x) => sum + x, 0));
  const n = totals.reduce((sum, x) => sum + x, 0);
  let [observed, expected] = [0, 0];
  o.forEach((row, a) => {
    row.forEach((x, b) => {
      const d2 = squaredDistance(Math.min(a, b), Math.max(a, b), totals, metric);
      observed += x * d2;
      expected += (totals[a]! * totals[b]! * d2) / (n - 1);
    });
  });
  return expected > 0 ? 1 - observed / expected : null;
}

/** δ² of classes low ≤ high; ordinal: (gradings from low to high, the two ends counted half)². */
function squaredDistance(low: number, high: number, totals: readonly number[], metric: AlphaMetric): number {
  if (low === high) return 0;
  if (metric === "nominal") return 1;
  if (metric === "interval") return (high - low) ** 2;
  const between = totals.slice(low, high + 1).reduce((sum, x) => sum + x, 0);
  return (between - (totals[low]! + totals[high]!) / 2) ** 2;
}

/** Of sorted values, interpolated as R's type 7. */
function quantile(sorted: readonly number[], p: number): number | null {
  if (sorted.length === 0) return null;
  const place = (sorted.length - 1) * p;
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below]! + (place - below) * (sorted[above]! - sorted[below]!);
}
