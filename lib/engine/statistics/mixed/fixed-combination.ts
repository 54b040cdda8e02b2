import type { CellWeight, MixedFit, NotEstimable } from "./types";

/** A linear combination of the fixed effects, ready to be estimated. */
export interface FixedCombination {
  /** Weights on the fixed columns. */
  readonly weights: Float64Array;
  /** (F′V⁻¹F)⁻¹ · weights. */
  readonly solved: Float64Array;
  readonly estimate: number;
}

/** The weighted sum as a combination of fixed effects, or why these data can't give it. */
export function combine(
  fit: MixedFit,
  weights: readonly CellWeight[],
): FixedCombination | { readonly reason: NotEstimable } {
  const { problem, evaluation, setGroups, labels } = fit.solution;
  const { data } = problem;
  const own = new Float64Array(data.columnCount);
  for (const { band, arm, weight } of weights) {
    const cell = fit.cells.findIndex((candidate) => candidate.band === band && candidate.arm === arm);
    if (cell < 0) return { reason: "NO_BOXES" };
    own[cell]! += weight;
    setGroups.forEach((group, k) => {
      if (labels.band[group.band] === band) own[data.cells.length + k]! += weight * group.share;
    });
  }
  const reason = notEstimable(fit, own);
  if (reason !== null) return { reason };
  const solved = new Float64Array(data.columnCount);
  let estimate = 0;
  for (let j = 0; j < data.columnCount; j++) {
    estimate += own[j]! * (evaluation.fixed[j]! + (data.cellMean[j] ?? 0));
    for (let i = 0; i < data.columnCount; i++) {
      solved[j]! += evaluation.inverse[j * data.columnCount + i]! * own[i]!;
    }
  }
  return { weights: own, solved, estimate };
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

/** Σ aᵢbᵢ. */
export function dot(a: Float64Array, b: Float64Array): number {
  return a.reduce((sum, value, i) => sum + value * b[i]!, 0);
}
