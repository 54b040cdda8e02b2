import { symmetricEigen } from "../symmetric";
import { solveGeneral } from "./dense";
import { combine, type FixedCombination } from "./fixed-combination";
import { GrowerSystem } from "./grower-system";
import { ratiosUsed } from "./ratio-scale";
import type { CellWeight, MixedFit } from "./types";

export interface LooTable {
  /** Growers in the order of the rows. */
  readonly growers: readonly string[];
  /**
   * Per grower a row with a number per contrast: its estimate without that grower, in the outcome's unit. NaN where
   * the contrast can't be estimated at all, or not without the grower.
   */
  readonly estimates: Float64Array;
  /**
   * In the same order: the grower's share of the contrast's information, adding up to 1 over growers; NaN where the
   * contrast can't be estimated.
   */
  readonly shares: Float64Array;
}

/**
 * Every contrast without each grower in turn, as one step: the variances stay as fitted from all growers, the
 * fixed effects are solved exactly (A − A_i)β = b − b_i, from each grower's share A_i, b_i of the normal equations.
 */
export function looTable(fit: MixedFit, contrasts: readonly (readonly CellWeight[])[]): LooTable {
  const { problem, evaluation, labels } = fit.solution;
  const { data } = problem;
  const combinations = contrasts.map((weights) => {
    const combination = combine(fit, weights);
    return "reason" in combination ? null : combination;
  });
  const width = contrasts.length;
  const estimates = new Float64Array(data.growerCount * width).fill(Number.NaN);
  const shares = new Float64Array(data.growerCount * width).fill(Number.NaN);
  const system = new GrowerSystem(data);
  const ratios = ratiosUsed(evaluation.ratios, problem.fixedOutings);
  for (let g = 0; g < data.growerCount; g++) {
    system.solve(g, ratios);
    const part = growerPart(fit, system, g);
    const change = changeWithout(fit, part);
    combinations.forEach((combination, k) => {
      if (combination === null) return;
      shares[g * width + k] = shareOf(part, combination);
      estimates[g * width + k] =
        change === null
          ? withoutSoleSource(fit, part, combination)
          : combination.estimate -
            part.columns.reduce((sum, c, i) => sum + combination.solved[c]! * change[i]!, 0);
    });
  }
  return { growers: Array.from(data.growerLabel, (label) => labels.grower[label]!), estimates, shares };
}

/** A grower's share of the normal equations, over its own estimated columns. */
interface GrowerPart {
  readonly columns: readonly number[];
  /** A_i, stride columns.length, and b_i. */
  readonly information: Float64Array;
  readonly right: Float64Array;
}

function growerPart(fit: MixedFit, system: GrowerSystem, g: number): GrowerPart {
  const { data, free } = fit.solution.problem;
  const own = data.ownStart[g]!;
  const q = system.p + 1;
  const locals: number[] = [];
  for (let j = 0; j < system.p; j++) if (free.includes(data.ownColumn[own + j]!)) locals.push(j);
  const information = new Float64Array(locals.length ** 2);
  locals.forEach((j, row) => {
    locals.forEach((i, column) => {
      information[row * locals.length + column] = system.information[Math.max(i, j) * q + Math.min(i, j)]!;
    });
  });
  return {
    columns: locals.map((j) => data.ownColumn[own + j]!),
    information,
    right: Float64Array.from(locals, (j) => system.information[system.p * q + j]!),
  };
}

/**
 * (I − A_i C)⁻¹(b_i − A_i β) over the grower's columns, C = A⁻¹: what C takes from β without the grower. Null when
 * something rests on this grower alone.
 */
function changeWithout(fit: MixedFit, { columns, information, right }: GrowerPart): Float64Array | null {
  const { fixed, inverse } = fit.solution.evaluation;
  const size = columns.length;
  const total = fixed.length;
  const matrix = new Float64Array(size * size);
  const rest = right.slice();
  for (let j = 0; j < size; j++) {
    for (let k = 0; k < size; k++) {
      const a = information[j * size + k]!;
      rest[j]! -= a * fixed[columns[k]!]!;
      for (let i = 0; i < size; i++) matrix[j * size + i]! -= a * inverse[columns[k]! * total + columns[i]!]!;
    }
    matrix[j * size + j]! += 1;
  }
  return solveGeneral(matrix, rest, size);
}

function shareOf({ columns, information }: GrowerPart, { weights, solved }: FixedCombination): number {
  const size = columns.length;
  let form = 0;
  for (let j = 0; j < size; j++) {
    for (let i = 0; i < size; i++) {
      form += solved[columns[j]!]! * solved[columns[i]!]! * information[j * size + i]!;
    }
  }
  return form / weights.reduce((sum, weight, c) => sum + weight * solved[c]!, 0);
}

/** The contrast from the other growers' equations, by their eigenvalues; NaN when they don't determine it. */
function withoutSoleSource(fit: MixedFit, part: GrowerPart, { weights }: FixedCombination): number {
  const { problem, evaluation } = fit.solution;
  const { free, data } = problem;
  const total = data.columnCount;
  const place = new Map(part.columns.map((column, i) => [column, i]));
  const ownOf = (row: number, column: number) => {
    const [j, i] = [place.get(row), place.get(column)];
    return j === undefined || i === undefined ? 0 : part.information[j * part.columns.length + i]!;
  };
  const columns = [...free];
  const scale = columns.map((c) => 1 / Math.sqrt(evaluation.information[c * total + c]!));
  const { values, vectors } = symmetricEigen(
    columns.map((row, j) =>
      columns.map(
        (column, i) =>
          (evaluation.information[row * total + column]! - ownOf(row, column)) * scale[j]! * scale[i]!,
      ),
    ),
  );
  const right = columns.map((column, j) => {
    const i = place.get(column);
    return (evaluation.right[column]! - (i === undefined ? 0 : part.right[i]!)) * scale[j]!;
  });
  const wanted = columns.map((column, j) => weights[column]! * scale[j]!);
  const length = Math.sqrt(wanted.reduce((sum, w) => sum + w * w, 0));
  let estimate = data.cellMean.reduce((sum, mean, cell) => sum + mean * weights[cell]!, 0);
  for (const [k, value] of values.entries()) {
    const along = vectors[k]!.reduce((sum, v, j) => sum + v * wanted[j]!, 0);
    if (value > 1e-9) estimate += (along * vectors[k]!.reduce((sum, v, j) => sum + v * right[j]!, 0)) / value;
    else if (Math.abs(along) > 1e-7 * length) return Number.NaN;
  }
  return estimate;
}
