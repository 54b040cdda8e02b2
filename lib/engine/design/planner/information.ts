import type { EfficiencyBound } from "@/shared/schemas/planner-result";

/** The arms of one set of boxes, as places in the plan's order; an arm may come twice. */
export type SetOfArms = readonly number[];

/** A symmetric v × v matrix, row after row. */
export type Square = Float64Array;

/** Variances of estimated differences between arms. */
export interface PairVariances {
  readonly mean: number;
  readonly worst: number;
  /** The pair whose variance is nearest to the mean. */
  readonly typicalPair: readonly [number, number];
  /** Variance of Σ cᵢ τ̂ᵢ for weights that sum to zero. */
  readonly ofContrast: (weights: readonly number[]) => number;
  /** C⁻c for weights that sum to zero: with it every box gets its weight in the estimate. */
  readonly solve: (weights: readonly number[]) => Float64Array;
}

/** How often each arm comes in the sets. */
export function replicationOf(sets: readonly SetOfArms[], arms: number): number[] {
  const counts = new Array<number>(arms).fill(0);
  for (const set of sets) for (const arm of set) counts[arm]! += 1;
  return counts;
}

/**
 * What the sets tell about arms within sets, per unit of residual variance: C = Σ over sets of
 * diag(n) − n n′/k, n the arms' counts in the set (John & Williams 1995, Cyclic and Computer Generated Designs,
 * ch. 1; from memory).
 */
export function informationOf(sets: readonly SetOfArms[], arms: number): Square {
  const c = new Float64Array(arms * arms);
  for (const set of sets) addSet(c, set, arms);
  return c;
}

function addSet(c: Square, set: SetOfArms, arms: number): void {
  const share = 1 / set.length;
  for (const i of set) {
    c[i * arms + i]! += 1;
    for (const j of set) c[i * arms + j]! -= share;
  }
}

/** Whether a chain of sets joins every arm to every other: off-diagonal entries of C are 0 or below. */
export function isConnected(c: Square, arms: number): boolean {
  const reached = new Set([0]);
  const open = [0];
  for (let i = open.pop(); i !== undefined; i = open.pop()) {
    for (let j = 0; j < arms; j++) {
      if (reached.has(j) || !(Math.abs(c[i * arms + j]!) > 1e-12)) continue;
      reached.add(j);
      open.push(j);
    }
  }
  return reached.size === arms;
}

/**
 * Variances of differences under the information matrix `c` (rows sum to zero); null when it isn't connected.
 * C⁻ is (C + mJ)⁻¹, m > 0: the added part drops out of every difference.
 */
export function pairVariances(c: Square, arms: number): PairVariances | null {
  if (!isConnected(c, arms)) return null;
  let trace = 0;
  for (let i = 0; i < arms; i++) trace += c[i * arms + i]!;
  const shift = trace / (arms * arms);
  const inverse = invert(
    c.map((x) => x + shift),
    arms,
  );
  const variance = (i: number, j: number) =>
    inverse[i * arms + i]! + inverse[j * arms + j]! - 2 * inverse[i * arms + j]!;
  let sum = 0;
  let worst = 0;
  for (let i = 0; i < arms; i++) {
    for (let j = 0; j < i; j++) {
      sum += variance(i, j);
      worst = Math.max(worst, variance(i, j));
    }
  }
  const mean = (2 * sum) / (arms * (arms - 1));
  const solve = (weights: readonly number[]) =>
    Float64Array.from({ length: arms }, (_, i) =>
      weights.reduce((total, weight, j) => total + weight * inverse[i * arms + j]!, 0),
    );
  const ofContrast = (weights: readonly number[]) => {
    const h = solve(weights);
    return weights.reduce((total, weight, i) => total + weight * h[i]!, 0);
  };
  return { mean, worst, typicalPair: nearestPair(arms, mean, variance), ofContrast, solve };
}

function nearestPair(
  arms: number,
  mean: number,
  variance: (i: number, j: number) => number,
): readonly [number, number] {
  let pair: readonly [number, number] = [1, 0];
  let gap = Number.POSITIVE_INFINITY;
  for (let i = 1; i < arms; i++) {
    for (let j = 0; j < i; j++) {
      const distance = Math.abs(variance(i, j) - mean);
      // Rounding must not decide between pairs that are alike.
      if (distance < gap - 1e-9 * mean) [pair, gap] = [[i, j], distance];
    }
  }
  return pair;
}

/** Inverse of a positive definite matrix by Gauss–Jordan elimination, which needs no pivoting there. */
export function invert(matrix: Square, size: number): Square {
  const a = Float64Array.from(matrix);
  for (let p = 0; p < size; p++) {
    const pivot = a[p * size + p]!;
    if (!(pivot > 0)) throw new RangeError("The matrix is not positive definite.");
    a[p * size + p] = 1;
    for (let j = 0; j < size; j++) a[p * size + j]! /= pivot;
    for (let i = 0; i < size; i++) {
      if (i === p) continue;
      const factor = a[i * size + p]!;
      if (factor === 0) continue;
      a[i * size + p] = 0;
      for (let j = 0; j < size; j++) a[i * size + j]! -= factor * a[p * size + j]!;
    }
  }
  return a;
}

/** E = 2/(r̄ × mean pairwise variance per unit of residual variance); 0 when not connected. */
export function efficiencyOf(variances: PairVariances | null, replication: readonly number[]): number {
  if (variances === null) return 0;
  return 2 / (mean(replication) * variances.mean);
}

/**
 * The most E can be with these set sizes and this use of arms: the lesser of
 * - WITHIN_SETS: trace(C)/(r̄(v − 1)), as the harmonic mean of C's v − 1 roots is at most their mean; for sets of k
 *   different arms v(k − 1)/(k(v − 1)), which balanced designs reach;
 * - UNEQUAL_REPLICATION: harmonic mean over mean of the replications, what the same boxes would give without sets.
 */
export function efficiencyBound(
  c: Square,
  replication: readonly number[],
): { readonly value: number; readonly by: EfficiencyBound } {
  const arms = replication.length;
  const average = mean(replication);
  let trace = 0;
  for (let i = 0; i < arms; i++) trace += c[i * arms + i]!;
  const withinSets = trace / (average * (arms - 1));
  const harmonic = arms / replication.reduce((sum, r) => sum + 1 / r, 0);
  const unequal = harmonic / average;
  return unequal < withinSets
    ? { value: unequal, by: "UNEQUAL_REPLICATION" }
    : { value: withinSets, by: "WITHIN_SETS" };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
