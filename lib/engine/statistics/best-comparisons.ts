import { type ArmMeans, differenceVariance } from "./arm-means";
import { covarianceRoot, largestOverEachRow } from "./multivariate-t";
import type { NormalPoints } from "./normal-points";

/** One arm's mean less the best of the other arms' means. */
export interface BestComparison {
  readonly arm: number;
  readonly difference: number;
  /** Constrained interval: never above 0 for an arm shown not to be the best, never below 0 for the one shown to be. */
  readonly lower: number;
  readonly upper: number;
  /** Whether it can't be excluded that this arm is better than all others. A given best arm keeps this at `level`. */
  readonly mayBeBest: boolean;
  /** Monte Carlo standard error of this arm's critical value. */
  readonly monteCarloError: number;
}

/**
 * Hsu's multiple comparisons with the best, the largest mean being best: simultaneous intervals at `level` for
 * θ_i = μ_i − max_{j≠i} μ_j (Hsu 1996, Multiple Comparisons: Theory and Methods, chapters 4 and 7, unequal
 * covariances included; Edwards & Hsu 1983, JASA 78:965–971). With d_i the one-sided Dunnett critical value against
 * arm i as control,
 *
 *     upper_i = max(0, min_{j≠i} (m_i − m_j + d_i se_ij)),        G = {i : upper_i > 0},
 *     lower_i = 0 where G = {i}, else min_{j∈G, j≠i} min(0, m_i − m_j − d_j se_ij).
 *
 * The quasi-random points are the same for all arms; with k arms k dimensions are enough. Two arms or more, all
 * differences with positive variances; throws otherwise.
 */
export function compareWithBest(
  { estimates, covariance, df }: ArmMeans,
  { level, points }: { readonly level: number; readonly points: NormalPoints },
): BestComparison[] {
  const k = estimates.length;
  if (k < 2) throw new RangeError("A comparison with the best needs two arms or more.");
  const root = contrastRoot(covariance);
  const critical = largestOverEachRow(root, points, df).map((largest) => largest.critical(1 - level));
  const se = (i: number, j: number): number => Math.sqrt(differenceVariance(covariance, i, j));
  const others = (i: number): number[] => estimates.map((_, j) => j).filter((j) => j !== i);
  const gap = (i: number, j: number): number => estimates[i]! - estimates[j]!;
  const upper = estimates.map((_, i) =>
    Math.max(0, Math.min(...others(i).map((j) => gap(i, j) + critical[i]!.value * se(i, j)))),
  );
  const contenders = estimates.map((_, i) => i).filter((i) => upper[i]! > 0);
  return estimates.map((_, i) => {
    const rivals = contenders.filter((j) => j !== i);
    const lower = Math.min(0, ...rivals.map((j) => gap(i, j) - critical[j]!.value * se(i, j)));
    return {
      arm: i,
      difference: Math.min(...others(i).map((j) => gap(i, j))),
      lower,
      upper: upper[i]!,
      mayBeBest: upper[i]! > 0,
      monteCarloError: critical[i]!.monteCarloError,
    };
  });
}

/** Rows whose differences carry the covariance of the means' differences: the means' common part taken out. */
function contrastRoot(covariance: ArmMeans["covariance"]): number[][] {
  const k = covariance.length;
  const rowMeans = covariance.map((row) => row.reduce((sum, x) => sum + x, 0) / k);
  const mean = rowMeans.reduce((sum, x) => sum + x, 0) / k;
  return covarianceRoot(
    covariance.map((row, a) => row.map((x, b) => x - rowMeans[a]! - rowMeans[b]! + mean)),
  );
}
