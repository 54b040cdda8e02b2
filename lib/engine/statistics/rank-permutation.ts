import { seededSource } from "../random/source";
import { generalisedInverse } from "./symmetric";

export interface PermutationOptions {
  /** Decides the permutations. */
  readonly seed: string;
  /** How many. */
  readonly permutations: number;
}

/** One grower's scores summed by arm; `arms` are the arms the grower had, the others' totals are 0. */
export interface GrowerTotals {
  readonly arms: readonly number[];
  readonly total: readonly number[];
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
  growers: readonly GrowerTotals[],
  armCount: number,
  { seed, permutations }: PermutationOptions,
): PermutationTest {
  const V = permutationCovariance(growers, armCount);
  const inverse = generalisedInverse(V);
  const observed = quadratic(
    inverse,
    growers.map(({ total }) => total),
  );
  const source = seededSource(seed);
  let asLarge = 0;
  for (let round = 0; round < permutations; round++) {
    const relabelled = growers.map(({ arms, total }) => {
      const moved = new Array<number>(armCount).fill(0);
      source.shuffle(arms).forEach((arm, i) => {
        moved[arm] = total[arms[i]!]!;
      });
      return moved;
    });
    if (quadratic(inverse, relabelled) >= observed * (1 - 1e-10)) asLarge++;
  }
  const df = Math.round(V.reduce((trace, row, i) => trace + dot(row, inverse[i]!), 0));
  return { statistic: observed, df, p: (1 + asLarge) / (1 + permutations) };
}

function permutationCovariance(growers: readonly GrowerTotals[], armCount: number): number[][] {
  const V = Array.from({ length: armCount }, () => new Array<number>(armCount).fill(0));
  for (const { arms, total } of growers) {
    if (arms.length < 2) continue;
    const variance = dot(total, total) / (arms.length - 1);
    for (const a of arms) {
      V[a]![a]! += variance;
      for (const b of arms) V[a]![b]! -= variance / arms.length;
    }
  }
  return V;
}

function quadratic(inverse: readonly (readonly number[])[], vectors: readonly (readonly number[])[]): number {
  const T = inverse.map((_, a) => vectors.reduce((sum, vector) => sum + vector[a]!, 0));
  return inverse.reduce((sum, row, a) => sum + T[a]! * dot(row, T), 0);
}

function dot(x: readonly number[], y: readonly number[]): number {
  return x.reduce((sum, xi, i) => sum + xi * y[i]!, 0);
}
