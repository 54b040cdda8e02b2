import { inverseOf } from "./dense";
import { GrowerSystem, type VarianceRatios } from "./grower-system";
import { ratiosUsed } from "./ratio-scale";
import type { SufficientData } from "./sufficient";
import { RANDOM_TERMS } from "./types";

/** Data and model in the form the criterion takes them. */
export interface MixedProblem {
  readonly data: SufficientData;
  /** The fixed columns that are estimated, ascending; the others are references and stay 0. */
  readonly free: Int32Array;
  readonly fixedOutings: boolean;
}

/** The model solved at given variance ratios. Square matrices have a row per fixed column, both triangles. */
export interface Evaluation {
  readonly ratios: VarianceRatios;
  /** The REML criterion −2 log L, profiled over fixed effects and residual variance, on lme4's scale. */
  readonly criterion: number;
  /** Its slope along the ratios of outing, grower, growerArm. */
  readonly slope: Float64Array;
  /**
   * The two parts of that slope: of log|V| + log|F′V⁻¹F|, and of the residual sum of squares r².
   * slope = logSlope + squaresSlope/σ².
   */
  readonly logSlope: Float64Array;
  readonly squaresSlope: Float64Array;
  /** tr(V⁻¹Z_kZ_k′) for the same terms. */
  readonly traces: Float64Array;
  /** Boxes less estimated columns (and less fixed outings). */
  readonly df: number;
  /** σ̂² = r²/df. */
  readonly residual: number;
  /** F′V⁻¹F and F′V⁻¹y. */
  readonly information: Float64Array;
  readonly right: Float64Array;
  /** Fixed effects of the centred outcomes, and (F′V⁻¹F)⁻¹ (0 at references): their covariance over σ². */
  readonly fixed: Float64Array;
  readonly inverse: Float64Array;
  /** F′V⁻¹Z_kZ_k′V⁻¹F per term: −∂(F′V⁻¹F)/∂λ_k. */
  readonly squares: readonly Float64Array[];
}

/** The criterion of one problem, for many variance ratios. */
export class Criterion {
  readonly problem: MixedProblem;
  readonly #system: GrowerSystem;
  /** F′V⁻¹F and F′V⁻¹Z_kZ_k′V⁻¹F summed over growers, bordered by y, lower triangles. */
  readonly #information: Float64Array;
  readonly #squares: readonly Float64Array[];

  constructor(problem: MixedProblem) {
    this.problem = problem;
    this.#system = new GrowerSystem(problem.data);
    const size = (problem.data.columnCount + 1) ** 2;
    this.#information = new Float64Array(size);
    this.#squares = RANDOM_TERMS.map(() => new Float64Array(size));
  }

  /**
   * Solves the model from every `stride`th grower (1: all). Null when these growers don't determine every fixed
   * effect or nothing is left to vary. Time is linear in growers and their outings.
   */
  evaluate(ratios: VarianceRatios, stride = 1): Evaluation | null {
    const { data, free, fixedOutings } = this.problem;
    const size = data.columnCount + 1;
    this.#information.fill(0);
    for (const square of this.#squares) square.fill(0);
    const traces = new Float64Array(RANDOM_TERMS.length);
    const used = ratiosUsed(ratios, fixedOutings);
    let logDeterminant = 0;
    let sumOfSquares = 0;
    let df = -free.length;
    for (let g = 0; g < data.growerCount; g += stride) {
      this.#system.solve(g, used);
      this.#add(g, fixedOutings);
      logDeterminant += this.#system.logDeterminant;
      sumOfSquares += data.growerSquares[g]!;
      for (let k = 0; k < traces.length; k++) traces[k]! += this.#system.traces[k]!;
      df += data.growerBoxes[g]!;
      if (fixedOutings) df -= data.growerStart[g + 1]! - data.growerStart[g]!;
    }
    this.#information[size * size - 1]! += sumOfSquares;
    return finish(ratios, free, {
      information: this.#information,
      squares: this.#squares,
      traces,
      logDeterminant,
      df,
    });
  }

  /** Adds the grower solved last to the sums. */
  #add(g: number, fixedOutings: boolean): void {
    const { ownStart, ownColumn, columnCount } = this.problem.data;
    const { p, m, outings, information, withGrower, withArms, withOutings } = this.#system;
    const [outing, grower, growerArm] = this.#squares as [Float64Array, Float64Array, Float64Array];
    const total = this.#information;
    const own = ownStart[g]!;
    const size = columnCount + 1;
    const q = p + 1;
    for (let j = 0; j < q; j++) {
      const row = (j < p ? ownColumn[own + j]! : columnCount) * size;
      for (let i = 0; i <= j; i++) {
        const at = row + (i < p ? ownColumn[own + i]! : columnCount);
        total[at]! += information[j * q + i]!;
        grower[at]! += withGrower[j]! * withGrower[i]!;
        let byArm = 0;
        for (let l = 0, x = j * m, y = i * m; l < m; l++, x++, y++) byArm += withArms[x]! * withArms[y]!;
        growerArm[at]! += byArm;
        if (fixedOutings) continue;
        let byOuting = 0;
        for (let o = 0, x = j * outings, y = i * outings; o < outings; o++, x++, y++)
          byOuting += withOutings[x]! * withOutings[y]!;
        outing[at]! += byOuting;
      }
    }
  }
}

/** Sums over growers, bordered by y, lower triangles. */
interface Sums {
  readonly information: Float64Array;
  readonly squares: readonly Float64Array[];
  readonly traces: Float64Array;
  readonly logDeterminant: number;
  readonly df: number;
}

function finish(ratios: VarianceRatios, free: Int32Array, sums: Sums): Evaluation | null {
  const { traces, df } = sums;
  const size = Math.round(Math.sqrt(sums.information.length));
  const information = unborder(sums.information, size);
  const right = sums.information.slice((size - 1) * size, size * size - 1);
  const solved = inverseOf(pick(sums.information, size, free), free.length);
  if (solved === null || df <= 0) return null;
  const inverse = spread(solved.inverse, free, size - 1);
  const fixed = times(inverse, right);
  const explained = fixed.reduce((sum, value, j) => sum + value * right[j]!, 0);
  const residual = (sums.information[size * size - 1]! - explained) / df;
  if (!(residual > 0)) return null;
  const squares = sums.squares.map((square) => unborder(square, size));
  const logSlope = traces.map((trace, k) => trace - product(inverse, squares[k]!));
  // r² falls by (y − Fβ)′V⁻¹Z_kZ_k′V⁻¹(y − Fβ).
  const squaresSlope = traces.map((_, k) => {
    const border = sums.squares[k]!.subarray((size - 1) * size);
    const across = fixed.reduce((sum, value, j) => sum + value * border[j]!, 0);
    const within = times(squares[k]!, fixed).reduce((sum, value, j) => sum + value * fixed[j]!, 0);
    return 2 * across - within - border[size - 1]!;
  });
  return {
    ratios,
    criterion:
      sums.logDeterminant + solved.logDeterminant + df * (1 + Math.log(2 * Math.PI) + Math.log(residual)),
    slope: logSlope.map((slope, k) => slope + squaresSlope[k]! / residual),
    logSlope,
    squaresSlope,
    traces,
    df,
    residual,
    information,
    right,
    fixed,
    inverse,
    squares,
  };
}

/** A matrix over the columns named as one over all `n`, 0 elsewhere. */
function spread(matrix: Float64Array, columns: Int32Array, n: number): Float64Array {
  const full = new Float64Array(n * n);
  columns.forEach((column, j) => {
    columns.forEach((other, i) => {
      full[column * n + other] = matrix[j * columns.length + i]!;
    });
  });
  return full;
}

function times(matrix: Float64Array, x: Float64Array): Float64Array {
  return x.map((_, j) => x.reduce((sum, value, i) => sum + matrix[j * x.length + i]! * value, 0));
}

/** The trace of the product of two symmetric matrices. */
function product(a: Float64Array, b: Float64Array): number {
  return a.reduce((sum, value, i) => sum + value * b[i]!, 0);
}

/** The rows and columns named, in a matrix of their own; lower triangle. */
function pick(matrix: Float64Array, stride: number, rows: Int32Array): Float64Array {
  const n = rows.length;
  const picked = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    for (let i = 0; i <= j; i++) picked[j * n + i] = matrix[rows[j]! * stride + rows[i]!]!;
  }
  return picked;
}

/** Both triangles of the matrix without its last row and column. */
function unborder(lower: Float64Array, size: number): Float64Array {
  const n = size - 1;
  const full = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    for (let i = 0; i <= j; i++) {
      full[j * n + i] = lower[j * size + i]!;
      full[i * n + j] = lower[j * size + i]!;
    }
  }
  return full;
}
