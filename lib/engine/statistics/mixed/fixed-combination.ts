import type { CellWeight, MixedFit, NotEstimable } from "./types";

/** A linear combination of the fixed effects, ready to be estimated. */
export interface FixedCombination {
  /** Weights on the fixed columns, and which of them aren't 0. */
  readonly weights: Float64Array;
  readonly support: readonly number[];
  /** (F′V⁻¹F)⁻¹ · weights. */
  readonly solved: Float64Array;
  readonly estimate: number;
}

/** The weighted sum as a combination of fixed effects, or why these data can't give it. */
export function combine(
  fit: MixedFit,
  weights: readonly CellWeight[],
): FixedCombination | { readonly reason: NotEstimable } {
  const { problem, setGroups, labels, columnOf } = fit.solution;
  const { data } = problem;
  const own = new Float64Array(data.columnCount);
  for (const { band, arm, weight } of weights) {
    const cell = columnOf(band, arm);
    if (cell === null) return { reason: "NO_BOXES" };
    own[cell]! += weight;
    setGroups.forEach((group, k) => {
      if (labels.band[group.band] === band) own[data.cells.length + k]! += weight * group.share;
    });
  }
  const reason = notEstimable(fit, own);
  return reason === null ? solvedCombination(fit, own) : { reason };
}

/** Weights on the fixed columns as a combination; whether it is estimable is up to whoever asks. */
export function solvedCombination({ solution }: MixedFit, weights: Float64Array): FixedCombination {
  const { evaluation, problem } = solution;
  const { columnCount: n, cellMean } = problem.data;
  const support: number[] = [];
  const solved = new Float64Array(n);
  let estimate = 0;
  for (let j = 0; j < n; j++) {
    const weight = weights[j]!;
    if (weight === 0) continue;
    support.push(j);
    estimate += weight * (evaluation.fixed[j]! + (cellMean[j] ?? 0));
    for (let i = 0; i < n; i++) solved[i]! += weight * evaluation.inverse[j * n + i]!;
  }
  return { weights, support, solved, estimate };
}

function notEstimable(fit: MixedFit, own: Float64Array): NotEstimable | null {
  const { data } = fit.solution.problem;
  const perGrowerPart = new Map<string, number>();
  const perOutingPart = new Map<number, number>();
  const perBand = new Map<number, number>();
  let largest = 0;
  for (let column = 0; column < own.length; column++) {
    const weight = own[column]!;
    if (weight === 0) continue;
    largest = Math.max(largest, Math.abs(weight));
    const cell = data.cells[column];
    // Shares and cells of a linked part must balance: a constant can move from the one to the other.
    add(perOutingPart, data.byOuting.groupOf(column), cell ? weight : -weight);
    if (cell === undefined) continue;
    add(perBand, cell.band, weight);
    add(perGrowerPart, `${cell.band} ${data.byGrower.groupOf(column)}`, weight);
  }
  const balanced = (sum: number) => Math.abs(sum) <= 1e-9 * largest;
  if (fit.fixedOutings) return [...perOutingPart.values()].every(balanced) ? null : "WITHIN_OUTINGS_ONLY";
  for (const [key, sum] of perGrowerPart) {
    if (balanced(perBand.get(Number(key.split(" ")[0]))!) && !balanced(sum)) return "NOT_LINKED";
  }
  const withSets = new Set(
    fit.solution.setGroups.map((_, k) => data.byOuting.groupOf(data.cells.length + k)),
  );
  const confounded = [...perOutingPart].some(([part, sum]) => withSets.has(part) && !balanced(sum));
  return confounded ? "AVAILABILITY" : null;
}

function add<K>(sums: Map<K, number>, key: K, value: number): void {
  sums.set(key, (sums.get(key) ?? 0) + value);
}

/** The covariance of two combinations, over σ². */
export function covarianceOf(a: FixedCombination, b: FixedCombination): number {
  return a.support.reduce((sum, j) => sum + a.weights[j]! * b.solved[j]!, 0);
}
