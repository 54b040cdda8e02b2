import { seededSource } from "../random/source";
import type { GrowerTotals } from "./rank-totals";
import { generalisedInverse, quadraticForm } from "./symmetric";

export interface PermutationOptions {
  /** Decides the permutations. */
  readonly seed: string;
  /** How many. */
  readonly permutations: number;
}

export interface PermutationTest {
  /** T′V⁻T, V the permutation covariance of the totals T. */
  readonly statistic: number;
  /** Rank of V. */
  readonly df: number;
  readonly p: number;
}

/**
 * Permutes arm labels within growers: each grower's arms get new names at random, the same in all outings of that
 * grower. A grower's own liking for an arm shows in all of the grower's outings and moves as a whole with the
 * label, so that the test stays honest about the mean over growers; shuffling each outing by itself would take
 * a grower's repeated outings for independent evidence.
 *
 * V = Σ_g |T_g|²/(m_g − 1) · (I − J/m_g) over a grower's m_g arms is the same under every permutation, so one
 * inverse serves all. p = (1 + permutations with a statistic at least as large) / (1 + permutations).
 */
export function permutationTest(
  totals: GrowerTotals,
  armCount: number,
  { seed, permutations }: PermutationOptions,
): PermutationTest {
  const V = permutationCovariance(totals, armCount);
  const inverse = generalisedInverse(V);
  const growers = Array.from({ length: totals.growers }, (_, g) => {
    const [first, end] = [totals.start[g], totals.start[g + 1]];
    return { arms: [...totals.arm.subarray(first, end)], total: totals.total.subarray(first, end) };
  });
  const T = new Float64Array(armCount);
  const add = (arms: readonly number[], total: Float64Array): void =>
    arms.forEach((arm, i) => {
      T[arm]! += total[i]!;
    });
  for (const { arms, total } of growers) add(arms, total);
  const observed = quadraticForm(inverse, T);
  const source = seededSource(seed);
  let asLarge = 0;
  for (let round = 0; round < permutations; round++) {
    T.fill(0);
    for (const { arms, total } of growers) add(source.shuffle(arms), total);
    if (quadraticForm(inverse, T) >= observed * (1 - 1e-10)) asLarge++;
  }
  const df = Math.round(V.reduce((trace, row, a) => trace + dot(row, inverse[a]!), 0));
  return { statistic: observed, df, p: (1 + asLarge) / (1 + permutations) };
}

function permutationCovariance({ growers, start, arm, total }: GrowerTotals, armCount: number): number[][] {
  const V = Array.from({ length: armCount }, () => new Array<number>(armCount).fill(0));
  for (let g = 0; g < growers; g++) {
    const [first, end] = [start[g]!, start[g + 1]!];
    const m = end - first;
    if (m < 2) continue;
    const own = total.subarray(first, end);
    const variance = dot(own, own) / (m - 1);
    for (let i = first; i < end; i++) {
      const row = V[arm[i]!]!;
      row[arm[i]!]! += variance;
      for (let h = first; h < end; h++) row[arm[h]!]! -= variance / m;
    }
  }
  return V;
}

function dot(x: ArrayLike<number>, y: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) sum += x[i]! * y[i]!;
  return sum;
}
