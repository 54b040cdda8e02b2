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
  const sums = Float64Array.from(cumulated(cases.map(({ weight }) => weight)));
  const flat = (rows: readonly (readonly number[])[]) => Float64Array.from(rows.flat());
  const [directions, means, spreads] = [
    flat(vectors),
    flat(cases.map((one) => one.means)),
    flat(cases.map(({ sds }) => sds)),
  ];
  const [shifts, boxSds] = [flat([nextSet.shifts]), flat([nextSet.variances.map(Math.sqrt)])];
  const arms = new Float64Array(k);
  const [ofMean, ofNextSet] = [new WinCount(k, points), new WinCount(k, points)];
  // Of a point's numbers, d are the directions', then one says which case, then k are a next set's boxes.
  const look = (at: number, sign: 1 | -1, set: number): void => {
    const values = points.values;
    const own = firstAtLeast(sums, normalUpperTail(-sign * values[at + d]!)) * d;
    arms.fill(0);
    for (let j = 0; j < d; j++) {
      const theta = means[own + j]! + spreads[own + j]! * sign * values[at + j]!;
      for (let a = 0, from = j * k; a < k; a++, from++) arms[a]! += directions[from]! * theta;
    }
    ofMean.add(arms, set);
    for (let a = 0, from = at + d + 1; a < k; a++, from++)
      arms[a]! += shifts[a]! + boxSds[a]! * sign * values[from]!;
    ofNextSet.add(arms, set);
  };
  for (let i = 0, at = 0; at < points.values.length; i++, at += points.dimension) {
    const set = Math.floor(i / points.pairsPerReplicate);
    look(at, 1, set);
    look(at, -1, set);
  }
  return { ofMean: ofMean.chances(), ofNextSet: ofNextSet.chances(), tau };
}

/** At how many points of each set, opposites included, an arm's value was the largest. */
export class WinCount {
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
function firstAtLeast(sums: Float64Array, u: number): number {
  let [low, high] = [0, sums.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sums[middle]! >= u) high = middle;
    else low = middle + 1;
  }
  return low;
}
