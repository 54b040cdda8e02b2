import type { RandomSource } from "../random/source";
import type { ArmMeans } from "./arm-means";
import { normalUpperTail } from "./distributions";
import { type NormalPoints, normalPoints, overReplicates } from "./normal-points";
import { shrinkArms } from "./shrinkage";

export interface BestChance {
  /** Per arm, the chance to have the largest value; they sum to 1. */
  readonly chances: readonly number[];
  /** The largest Monte Carlo standard error of the chances. */
  readonly monteCarloError: number;
}

export interface BestChances {
  /** Of the arm's mean in the climate group. */
  readonly ofMean: BestChance;
  /** Of one box each in the next set of a grower. */
  readonly ofNextSet: BestChance;
  /** Posterior mean of the standard deviation between arms. */
  readonly tau: number;
}

/** What a grower's next set adds to the means; arm by arm. */
export interface NextSet {
  /** How the grower's own results move each arm; all 0 for a grower who has none. */
  readonly shifts: readonly number[];
  /**
   * Variance of a box about its arm's mean, what a whole set shares left out: grower × arm (what is still unknown of
   * it) and residual.
   */
  readonly variances: readonly number[];
}

/**
 * P(arm has the largest of correlated normals), mean `means` and covariance LL′ with `root` = L (see
 * `covarianceRoot`), counted over quasi-random points of the root's dimension.
 */
export function chancesOfLargest(
  means: readonly number[],
  root: readonly (readonly number[])[],
  points: NormalPoints,
): BestChance {
  return countBest(means.length, points, (g, values) => {
    for (let a = 0; a < means.length; a++) {
      let x = means[a]!;
      for (let j = 0; j < g.length; j++) x += root[a]![j]! * g[j]!;
      values[a] = x;
    }
  });
}

/**
 * The chance of each arm of a climate group to be the best, the largest being best, from draws of the arms shrunken
 * towards each other (`shrinkArms`): unshrunken draws claim far more than comes true. `priorScale` as there.
 * `source` decides the points. Two arms or more.
 */
export function bestChances(
  { estimates, covariance, df }: ArmMeans,
  {
    priorScale,
    nextSet,
    source,
  }: { readonly priorScale: number; readonly nextSet: NextSet; readonly source: RandomSource },
): BestChances {
  const { vectors, cases, tau } = shrinkArms(estimates, covariance, { df, priorScale });
  const k = estimates.length;
  const d = vectors.length;
  const sums = cumulated(cases.map(({ weight }) => weight));
  const sds = nextSet.variances.map(Math.sqrt);
  // Dimensions: the d directions, then which case, then the k boxes of a next set.
  const points = normalPoints(d + 1 + k, source);
  const setMeans = (g: Float64Array, values: Float64Array): void => {
    const { means, sds: spread } = cases[firstAtLeast(sums, uniformOf(g[d]!))]!;
    values.fill(0);
    for (let j = 0; j < d; j++) {
      const theta = means[j]! + spread[j]! * g[j]!;
      for (let a = 0; a < k; a++) values[a]! += vectors[j]![a]! * theta;
    }
  };
  return {
    ofMean: countBest(k, points, setMeans),
    ofNextSet: countBest(k, points, (g, values) => {
      setMeans(g, values);
      for (let a = 0; a < k; a++) values[a]! += nextSet.shifts[a]! + sds[a]! * g[d + 1 + a]!;
    }),
    tau,
  };
}

/** Shares of the points at which each arm's value, as `fill` computes it, is the largest. */
function countBest(
  k: number,
  { dimension, replicates, perReplicate, values }: NormalPoints,
  fill: (g: Float64Array, arms: Float64Array) => void,
): BestChance {
  const wins = Array.from({ length: replicates }, () => new Float64Array(k));
  const arms = new Float64Array(k);
  for (let i = 0; i < replicates * perReplicate; i++) {
    fill(values.subarray(i * dimension, (i + 1) * dimension), arms);
    let best = 0;
    for (let a = 1; a < k; a++) if (arms[a]! > arms[best]!) best = a;
    wins[Math.floor(i / perReplicate)]![best]! += 1 / perReplicate;
  }
  const perArm = Array.from({ length: k }, (_, a) => overReplicates(wins.map((set) => set[a]!)));
  return {
    chances: perArm.map(({ value }) => value),
    monteCarloError: Math.max(...perArm.map(({ monteCarloError }) => monteCarloError)),
  };
}

function cumulated(weights: readonly number[]): number[] {
  let sum = 0;
  return weights.map((weight) => {
    sum += weight;
    return sum;
  });
}

/** The first place whose cumulated weight reaches u, by halving. */
function firstAtLeast(sums: readonly number[], u: number): number {
  let [low, high] = [0, sums.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sums[middle]! >= u) high = middle;
    else low = middle + 1;
  }
  return low;
}

function uniformOf(z: number): number {
  return normalUpperTail(-z);
}
