import { inverseOf } from "./dense";
import { combine, covarianceOf, type FixedCombination } from "./fixed-combination";
import { GrowerSystem } from "./grower-system";
import { ratiosUsed } from "./ratio-scale";
import type { MixedFit, NotEstimable } from "./types";

/** How one grower's boxes compare two arms of a band. Outcome's unit. */
export interface GrowerDifference {
  readonly grower: string;
  readonly boxes: readonly [first: number, second: number];
  /** From this grower's boxes alone, by weighted least squares at the fitted variances, and its standard error. */
  readonly own: number;
  readonly ownSe: number;
  /** The grower's true difference as predicted from everyone's boxes, and its standard error. */
  readonly predicted: number;
  readonly predictedSe: number;
}

/**
 * The growers who had both arms in the band, each with its own and its predicted difference first − second. The
 * own one's standard error says how well the grower's boxes tell its own true difference; the predicted one's
 * includes the uncertainty of the mean difference, at the fitted variances.
 */
export function growerDifferences(
  fit: MixedFit,
  band: string,
  first: string,
  second: string,
): readonly GrowerDifference[] | NotEstimable {
  const combination = combine(fit, [
    { band, arm: first, weight: 1 },
    { band, arm: second, weight: -1 },
  ]);
  if ("reason" in combination) return combination.reason;
  const { problem, evaluation, labels } = fit.solution;
  const { data } = problem;
  const [one, other] = [first, second].map((arm) =>
    fit.cells.findIndex((cell) => cell.band === band && cell.arm === arm),
  );
  const system = new GrowerSystem(data);
  const ratios = ratiosUsed(evaluation.ratios, problem.fixedOutings);
  const differences: GrowerDifference[] = [];
  for (let g = 0; g < data.growerCount; g++) {
    const columns = data.ownColumn.subarray(data.ownStart[g]!, data.ownStart[g + 1]!);
    const [a, b] = [columns.indexOf(one!), columns.indexOf(other!)];
    if (a < 0 || b < 0) continue;
    system.solve(g, ratios);
    const own = ownDifference(fit, system, g, a, b);
    if (own === null) continue;
    differences.push({
      grower: labels.grower[data.growerLabel[g]!]!,
      boxes: [boxesOf(fit, g, a), boxesOf(fit, g, b)],
      ...own,
      ...predictedFor(fit, system, g, a, b, combination),
    });
  }
  return differences;
}

/**
 * The mean difference plus λ_ga z′V⁻¹(y − Fβ̂), z the column of the first arm in Z_a less that of the second, and its
 * prediction variance over σ²: 2λ_ga − λ_ga² z′V⁻¹z + (w − λ_ga h)′(F′V⁻¹F)⁻¹(w − λ_ga h), w the contrast and
 * h = F′V⁻¹z.
 */
function predictedFor(
  fit: MixedFit,
  system: GrowerSystem,
  g: number,
  a: number,
  b: number,
  combination: FixedCombination,
) {
  const { problem, evaluation } = fit.solution;
  const { data } = problem;
  const { m, p, withArms } = system;
  const own = data.ownStart[g]!;
  const lambda = evaluation.ratios.growerArm;
  const [l, k] = [data.ownArm[own + a]!, data.ownArm[own + b]!];
  const h = Array.from({ length: p + 1 }, (_, j) => withArms[j * m + l]! - withArms[j * m + k]!);
  const shift = ownError(fit, system, g).reduce((sum, e, j) => sum + e * h[j]!, 0);
  let variance = covarianceOf(combination, combination) + 2 * lambda;
  for (let j = 0; j < p; j++) {
    const column = data.ownColumn[own + j]!;
    const sign = Number(data.ownArm[own + j] === l) - Number(data.ownArm[own + j] === k);
    variance -= lambda * lambda * sign * h[j]! + 2 * lambda * h[j]! * combination.solved[column]!;
    for (let i = 0; i < p; i++) {
      const inverse = evaluation.inverse[column * data.columnCount + data.ownColumn[own + i]!]!;
      variance += lambda * lambda * h[j]! * h[i]! * inverse;
    }
  }
  return {
    predicted: combination.estimate + lambda * shift,
    predictedSe: Math.sqrt(evaluation.residual * Math.max(0, variance)),
  };
}

/** y − Fβ̂ in the grower's bordered form: −β̂ of its columns, then 1. */
function ownError(fit: MixedFit, system: GrowerSystem, g: number): Float64Array {
  const { problem, evaluation } = fit.solution;
  const own = problem.data.ownStart[g]!;
  return Float64Array.from({ length: system.p + 1 }, (_, j) =>
    j < system.p ? -evaluation.fixed[problem.data.ownColumn[own + j]!]! : 1,
  );
}

/**
 * From (C′V⁻¹C)⁻¹ over the grower's own cells, which is (C′W⁻¹C)⁻¹ + K: taking K's 2λ_ga off leaves the sampling
 * variance. Null with fixed outings that never held both.
 */
function ownDifference(fit: MixedFit, system: GrowerSystem, g: number, a: number, b: number) {
  const { problem, evaluation } = fit.solution;
  const { data } = problem;
  const size = data.ownCells[g]!;
  const q = system.p + 1;
  const information = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    for (let i = 0; i <= j; i++) information[j * size + i] = system.information[j * q + i]!;
  }
  const solved = inverseOf(information, size);
  if (solved === null) return null;
  const { inverse } = solved;
  const columns = data.ownColumn.subarray(data.ownStart[g]!);
  let own = data.cellMean[columns[a]!]! - data.cellMean[columns[b]!]!;
  for (let i = 0; i < size; i++) {
    own += (inverse[a * size + i]! - inverse[b * size + i]!) * system.information[system.p * q + i]!;
  }
  const form = inverse[a * size + a]! + inverse[b * size + b]! - 2 * inverse[a * size + b]!;
  const sampling = Math.max(0, form - 2 * evaluation.ratios.growerArm);
  return { own, ownSe: Math.sqrt(evaluation.residual * sampling) };
}

function boxesOf(fit: MixedFit, g: number, local: number): number {
  const { data } = fit.solution.problem;
  const from = data.outingStart[data.growerStart[g]!]!;
  const to = data.outingStart[data.growerStart[g + 1]!]!;
  let boxes = 0;
  for (let e = from; e < to; e++) if (data.entryColumn[e] === local) boxes += data.entryBoxes[e]!;
  return boxes;
}
