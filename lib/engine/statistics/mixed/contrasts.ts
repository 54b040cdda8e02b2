import { fUpperTail } from "../distributions";
import { symmetricEigen } from "../symmetric";
import { combine, covarianceOf, type FixedCombination, solvedCombination } from "./fixed-combination";
import { type CellWeight, type MixedEstimate, type MixedFit, RANDOM_TERMS, type VarianceName } from "./types";

/**
 * A weighted sum of cell means. Each cell mean averages its band's availability sets by their share of outings;
 * within a band a contrast doesn't depend on that.
 *
 * df by Satterthwaite's method (Giesbrecht & Burns 1985, Biometrics 41:477–486): 2v²/(g′Σg), v the estimate's
 * variance, g its slope along the variances and Σ their asymptotic covariance.
 */
export function contrast(fit: MixedFit, weights: readonly CellWeight[]): MixedEstimate {
  const combination = combine(fit, weights);
  if ("reason" in combination) return { estimable: false, reason: combination.reason };
  const { variance, df } = varianceOf(fit, combination);
  return { estimable: true, estimate: combination.estimate, se: Math.sqrt(variance), df };
}

/** The difference first − second between two arms of a band. */
export function difference(fit: MixedFit, band: string, first: string, second: string): MixedEstimate {
  return contrast(fit, [
    { band, arm: first, weight: 1 },
    { band, arm: second, weight: -1 },
  ]);
}

/** The mean of a cell. */
export function cellMean(fit: MixedFit, band: string, arm: string): MixedEstimate {
  return contrast(fit, [{ band, arm, weight: 1 }]);
}

export interface JointTest {
  readonly f: number;
  readonly df1: number;
  readonly df2: number;
  readonly p: number;
}

/**
 * The F test that all these contrasts are 0. Its denominator df are Fai & Cornelius's (1996, J. Stat. Comput. Simul.
 * 54:363–378) from the Satterthwaite df of the contrasts' principal axes. Null where a contrast isn't estimable;
 * contrasts that follow from others don't count twice.
 */
export function jointTest(fit: MixedFit, contrasts: readonly (readonly CellWeight[])[]): JointTest | null {
  const combinations: FixedCombination[] = [];
  for (const weights of contrasts) {
    const combination = combine(fit, weights);
    if ("reason" in combination) return null;
    combinations.push(combination);
  }
  const sigma2 = fit.solution.evaluation.residual;
  const covariance = combinations.map((a) => combinations.map((b) => sigma2 * covarianceOf(a, b)));
  const { values, vectors } = symmetricEigen(covariance);
  const negligible = 1e-9 * Math.max(0, ...values);
  let sum = 0;
  const dfs: number[] = [];
  values.forEach((value, k) => {
    if (!(value > negligible)) return;
    const axis = alongAxis(fit, combinations, vectors[k]!);
    sum += axis.estimate ** 2 / value;
    dfs.push(varianceOf(fit, axis).df);
  });
  const df1 = dfs.length;
  if (df1 === 0) return null;
  const df2 = pooledDf(dfs);
  const f = sum / df1;
  return { f, df1, df2, p: fUpperTail(f, df1, df2) };
}

/** 2E/(E − q) with E = Σ ν/(ν − 2); 2 where some ν ≤ 2, ν itself for one. */
function pooledDf(dfs: readonly number[]): number {
  if (dfs.length === 1) return dfs[0]!;
  if (dfs.some((df) => df <= 2)) return 2;
  const excess = dfs.reduce((total, df) => total + 2 / (df - 2), 0);
  return (2 * (excess + dfs.length)) / excess;
}

/** Variance of the combination and its slope along the variances of `varianceCovariance.names`. */
export function varianceSlope(fit: MixedFit, combination: FixedCombination) {
  const { evaluation, covarianceSlopes } = fit.solution;
  const perResidual = covarianceOf(combination, combination);
  const slopes = fit.varianceCovariance.names.slice(0, -1).map((name) => {
    const k = (RANDOM_TERMS as readonly VarianceName[]).indexOf(name);
    return quadratic(covarianceSlopes[k]!, combination);
  });
  // The variance is homogeneous of degree 1 in the variances, which gives its slope along the last, the residual.
  const residual = fit.varianceCovariance.names
    .slice(0, -1)
    .reduce((rest, name, i) => rest - (fit.variance[name]! / evaluation.residual) * slopes[i]!, perResidual);
  return { variance: evaluation.residual * perResidual, slope: [...slopes, residual] };
}

/** Satterthwaite's df of a variance with this slope along the fit's variances. */
export function satterthwaite(fit: MixedFit, variance: number, slope: readonly number[]): number {
  const { matrix } = fit.varianceCovariance;
  const spread = slope.reduce(
    (sum, a, i) => sum + a * slope.reduce((inner, b, j) => inner + b * matrix[i]![j]!, 0),
    0,
  );
  return (2 * variance * variance) / spread;
}

function varianceOf(fit: MixedFit, combination: FixedCombination): { variance: number; df: number } {
  const { variance, slope } = varianceSlope(fit, combination);
  return { variance, df: satterthwaite(fit, variance, slope) };
}

function alongAxis(
  fit: MixedFit,
  combinations: readonly FixedCombination[],
  axis: readonly number[],
): FixedCombination {
  const weights = new Float64Array(combinations[0]!.weights.length);
  combinations.forEach((own, k) => {
    for (const j of own.support) weights[j]! += axis[k]! * own.weights[j]!;
  });
  return solvedCombination(fit, weights);
}

function quadratic(matrix: Float64Array, { weights, support }: FixedCombination): number {
  const n = weights.length;
  let form = 0;
  for (const j of support) for (const i of support) form += weights[j]! * weights[i]! * matrix[j * n + i]!;
  return form;
}
