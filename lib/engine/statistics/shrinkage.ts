import { chiSquareUpperTail } from "./distributions";
import { increasingRoot } from "./root";
import type { SymmetricMatrix } from "./symmetric";
import { symmetricEigen } from "./symmetric";

/**
 * What is believed of the arms' differences: independent directions, each a mixture over the same weighted cases (a
 * spread of arms and an error variance). Arm a's distance from the arms' mean is Σ_j vectors[j][a] θ_j.
 */
export interface ShrunkenArms {
  readonly vectors: readonly (readonly number[])[];
  readonly cases: readonly ShrunkenCase[];
  /** Posterior mean of τ, the standard deviation between arms, same units as the estimates. */
  readonly tau: number;
}

export interface ShrunkenCase {
  /** Weights of all cases sum to 1. */
  readonly weight: number;
  readonly tau: number;
  /** Mean and standard deviation of θ_j. */
  readonly means: readonly number[];
  readonly sds: readonly number[];
}

export interface ShrinkageOptions {
  /** Degrees of freedom of the covariance; Infinity where it is known. */
  readonly df: number;
  /**
   * Scale of the half-normal prior of τ, in units of the estimates. For growth 0–4 half a class is a weak statement:
   * recipes of one trial rarely differ by more than a class or two (common practice, no source).
   */
  readonly priorScale: number;
}

const TAU_POINTS = 48;
/** τ is integrated up to this many prior scales. */
const TAU_REACH = 4;
/** Cases of the error variance, each as likely as the others: none is needed where it is known. */
const VARIANCE_CASES = 6;
const RELATIVE_ZERO = 1e-10;

/**
 * Arm means drawn towards each other: μ_a ~ N(m, τ²), m flat, τ half-normal, estimates ~ N(μ, s²·covariance) with
 * s² ~ ν/χ²(ν). Along the eigenvectors of the covariance between arms (the means' common part taken out) estimates
 * y_j are independent with variances s²λ_j, so that θ_j | τ, s has mean y_jτ²/(τ² + s²λ_j) and variance
 * τ²s²λ_j/(τ² + s²λ_j); τ and s are integrated over by their likelihood, so that three arms that came out alike by
 * luck aren't taken for equal. Two arms or more.
 */
export function shrinkArms(
  estimates: readonly number[],
  covariance: SymmetricMatrix,
  { df, priorScale }: ShrinkageOptions,
): ShrunkenArms {
  if (estimates.length < 2) throw new RangeError("Shrinkage needs two arms or more.");
  const { vectors, lambdas } = betweenArms(covariance);
  const y = vectors.map((vector) => dot(vector, estimates));
  const cases = varianceCases(df).flatMap((s2) =>
    halfNormalPoints(priorScale).map(({ tau, logPrior }) => {
      const variances = lambdas.map((lambda) => tau * tau + s2 * lambda);
      const log = variances.reduce((sum, v, j) => sum - (Math.log(v) + (y[j]! * y[j]!) / v) / 2, 0);
      return {
        logWeight: log + logPrior,
        tau,
        means: variances.map((v, j) => (y[j]! * tau * tau) / v),
        sds: variances.map((v, j) => tau * Math.sqrt((s2 * lambdas[j]!) / v)),
      };
    }),
  );
  const top = Math.max(...cases.map(({ logWeight }) => logWeight));
  const raw = cases.map(({ logWeight }) => Math.exp(logWeight - top));
  const total = raw.reduce((sum, w) => sum + w, 0);
  return {
    vectors,
    cases: cases.map(({ tau, means, sds }, i) => ({ weight: raw[i]! / total, tau, means, sds })),
    tau: cases.reduce((sum, { tau }, i) => sum + (tau * raw[i]!) / total, 0),
  };
}

/** Eigenvectors with positive eigenvalues of the covariance of estimates less their mean. */
function betweenArms(covariance: SymmetricMatrix) {
  const k = covariance.length;
  const rowMeans = covariance.map((row) => row.reduce((sum, x) => sum + x, 0) / k);
  const mean = rowMeans.reduce((sum, x) => sum + x, 0) / k;
  const centred = covariance.map((row, a) => row.map((x, b) => x - rowMeans[a]! - rowMeans[b]! + mean));
  const { values, vectors } = symmetricEigen(centred);
  const zero = RELATIVE_ZERO * Math.max(...values);
  const kept = values.map((_, j) => j).filter((j) => values[j]! > zero);
  if (kept.length < k - 1)
    throw new RangeError("Two arms' difference has no variance; leave one of them out.");
  return { vectors: kept.map((j) => vectors[j]!), lambdas: kept.map((j) => values[j]!) };
}

/** Midpoints of τ with the logarithm of the half-normal density there, up to a constant. */
export function halfNormalPoints(scale: number): { tau: number; logPrior: number }[] {
  return Array.from({ length: TAU_POINTS }, (_, i) => {
    const tau = (TAU_REACH * scale * (i + 0.5)) / TAU_POINTS;
    return { tau, logPrior: -((tau / scale) ** 2) / 2 };
  });
}

/** Values of ν/χ²(ν) in the middles of equally likely slices. */
function varianceCases(df: number): number[] {
  if (df === Infinity) return [1];
  // ln χ²(ν) is about ln ν ± √(2/ν); the slices' middles lie within a few of these from one degree of freedom on.
  const spread = Math.sqrt(2 / df);
  const [low, high] =
    df >= 1 ? [Math.log(df) - 5 * spread, Math.log(df) + 4 * spread] : [-60, Math.log(df) + 8];
  return Array.from({ length: VARIANCE_CASES }, (_, i) => {
    const tail = (i + 0.5) / VARIANCE_CASES;
    const logChi = increasingRoot((x) => tail - chiSquareUpperTail(Math.exp(x), df), low, high);
    return df / Math.exp(logChi);
  });
}

function dot(x: readonly number[], y: readonly number[]): number {
  return x.reduce((sum, xi, i) => sum + xi * y[i]!, 0);
}
