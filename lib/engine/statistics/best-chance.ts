import type { ArmMeans } from "./arm-means";
import { normalUpperTail } from "./distributions";
import { type NormalPoints, overReplicates } from "./normal-points";
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
 * `covarianceRoot`), counted over quasi-random points of at least the root's dimension.
 */
export function chancesOfLargest(
  means: readonly number[],
  root: readonly (readonly number[])[],
  points: NormalPoints,
): BestChance {
  const wins = new WinCount(means.length, points);
  forEachPoint(points, (point, set) => {
    const values = means.map((mean, a) => root[a]!.reduce((sum, x, j) => sum + x * point[j]!, mean));
    wins.add(values, set);
  });
  return wins.chances();
}

/** How many dimensions `bestChances` needs for so many arms. */
export function chanceDimensions(arms: number): number {
  return 2 * arms;
}

/**
 * The chance of each arm of a climate group to be the best, the largest being best, from draws of the arms shrunken
 * towards each other (`shrinkArms`): unshrunken draws claim far more than comes true. `priorScale` as there. Two arms
 * or more.
 */
export function bestChances(
  { estimates, covariance, df }: ArmMeans,
  {
    priorScale,
    nextSet,
    points,
  }: { readonly priorScale: number; readonly nextSet: NextSet; readonly points: NormalPoints },
): BestChances {
  const { vectors, cases, tau } = shrinkArms(estimates, covariance, { df, priorScale });
  const k = estimates.length;
  const d = vectors.length;
  if (points.dimension < d + 1 + k) throw new RangeError(`${k} arms need points of ${d + 1 + k} dimensions.`);
  const sums = cumulated(cases.map(({ weight }) => weight));
  const sds = nextSet.variances.map(Math.sqrt);
  const directions = vectors.map((vector) => Float64Array.from(vector));
  const values = new Float64Array(k);
  const [ofMean, ofNextSet] = [new WinCount(k, points), new WinCount(k, points)];
  // Of a point's numbers, d are the directions', then one says which case, then k are a next set's boxes.
  forEachPoint(points, (point, set) => {
    const { means, sds: spread } = cases[firstAtLeast(sums, uniformOf(point[d]!))]!;
    values.fill(0);
    for (let j = 0; j < d; j++) {
      const theta = means[j]! + spread[j]! * point[j]!;
      const direction = directions[j]!;
      for (let a = 0; a < k; a++) values[a]! += direction[a]! * theta;
    }
    ofMean.add(values, set);
    for (let a = 0; a < k; a++) values[a]! += nextSet.shifts[a]! + sds[a]! * point[d + 1 + a]!;
    ofNextSet.add(values, set);
  });
  return { ofMean: ofMean.chances(), ofNextSet: ofNextSet.chances(), tau };
}

/** Hands over every point and its opposite, with the number of its set; what is handed over is used again. */
function forEachPoint(
  { dimension, pairsPerReplicate, values }: NormalPoints,
  look: (point: Float64Array, set: number) => void,
): void {
  const point = new Float64Array(dimension);
  for (let i = 0, from = 0; from < values.length; i++, from += dimension) {
    const set = Math.floor(i / pairsPerReplicate);
    for (let j = 0; j < dimension; j++) point[j] = values[from + j]!;
    look(point, set);
    for (let j = 0; j < dimension; j++) point[j] = -point[j]!;
    look(point, set);
  }
}

/** At how many points of each set an arm's value was the largest. */
class WinCount {
  readonly #wins: readonly Float64Array[];
  readonly #arms: number;
  readonly #pointsPerSet: number;

  constructor(arms: number, { replicates, pairsPerReplicate }: NormalPoints) {
    this.#arms = arms;
    this.#pointsPerSet = 2 * pairsPerReplicate;
    this.#wins = Array.from({ length: replicates }, () => new Float64Array(arms));
  }

  add(values: ArrayLike<number>, set: number): void {
    let best = 0;
    for (let a = 1; a < this.#arms; a++) if (values[a]! > values[best]!) best = a;
    this.#wins[set]![best]! += 1;
  }

  chances(): BestChance {
    const perArm = Array.from({ length: this.#arms }, (_, a) =>
      overReplicates(this.#wins.map((set) => set[a]! / this.#pointsPerSet)),
    );
    return {
      chances: perArm.map(({ value }) => value),
      monteCarloError: Math.max(...perArm.map(({ monteCarloError }) => monteCarloError)),
    };
  }
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
