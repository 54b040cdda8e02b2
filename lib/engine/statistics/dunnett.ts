import { type ArmMeans, differenceCovariance } from "./arm-means";
import { covarianceRoot, largestT } from "./multivariate-t";
import type { NormalPoints } from "./normal-points";

/** One arm less the reference. */
export interface ReferenceComparison {
  readonly arm: number;
  readonly difference: number;
  readonly se: number;
  /** Simultaneous over all arms but the reference. */
  readonly lower: number;
  readonly upper: number;
  readonly p: number;
  /** Monte Carlo standard error of p. */
  readonly pMonteCarloError: number;
}

export interface ReferenceComparisons {
  readonly comparisons: readonly ReferenceComparison[];
  /** The intervals are difference ± critical · se. */
  readonly critical: number;
  /** Monte Carlo standard error of `critical`. */
  readonly monteCarloError: number;
}

/**
 * Two-sided comparisons of every arm with the one at place `reference`, simultaneous at `level` (Dunnett 1955, JASA
 * 50:1096–1121), for any covariance of the means: multivariate t with the correlations of the differences, by
 * quasi-Monte Carlo; with k arms points of k dimensions are enough. Needs two arms or more and differences with
 * positive variances; throws otherwise.
 */
export function compareWithReference(
  { estimates, covariance, df }: ArmMeans,
  {
    reference,
    level,
    points,
  }: { readonly reference: number; readonly level: number; readonly points: NormalPoints },
): ReferenceComparisons {
  const arms = estimates.map((_, arm) => arm).filter((arm) => arm !== reference);
  if (arms.length === 0 || arms.length === estimates.length)
    throw new RangeError(`There is no arm to compare with the reference at place ${reference}.`);
  const root = covarianceRoot(
    arms.map((a) => arms.map((b) => differenceCovariance(covariance, [a, reference], [b, reference]))),
  );
  const ses = root.map((row) => Math.hypot(...row));
  if (ses.some((se) => !(se > 0))) throw new RangeError("A difference from the reference has no variance.");
  const unitVectors = root.map((row, i) => row.map((x) => x / ses[i]!));
  const largest = largestT(unitVectors, points, { df, twoSided: true });
  const { value: critical, monteCarloError } = largest.critical(1 - level);
  const comparisons = arms.map((arm, i) => {
    const se = ses[i]!;
    const difference = estimates[arm]! - estimates[reference]!;
    const t = Math.abs(difference) / se;
    const tail = t > 0 ? largest.upperTail(t) : { value: 1, monteCarloError: 0 };
    return {
      arm,
      difference,
      se,
      lower: difference - critical * se,
      upper: difference + critical * se,
      p: Math.min(1, tail.value),
      pMonteCarloError: tail.monteCarloError,
    };
  });
  return { comparisons, critical, monteCarloError };
}
