import type { SymmetricMatrix } from "./symmetric";

/** Estimated means of one climate group's arms, as a fit gives them. */
export interface ArmMeans {
  /** One per arm. */
  readonly estimates: readonly number[];
  /** Covariance of the estimates, squared units of the estimates. */
  readonly covariance: SymmetricMatrix;
  /** Degrees of freedom of the covariance; Infinity where it is known. */
  readonly df: number;
}

/** Variance of estimate a − estimate b. */
export function differenceVariance(covariance: SymmetricMatrix, a: number, b: number): number {
  return covariance[a]![a]! + covariance[b]![b]! - 2 * covariance[a]![b]!;
}

/** Covariance of estimate a − estimate b with estimate c − estimate d. */
export function differenceCovariance(
  covariance: SymmetricMatrix,
  [a, b]: readonly [number, number],
  [c, d]: readonly [number, number],
): number {
  return covariance[a]![c]! - covariance[a]![d]! - covariance[b]![c]! + covariance[b]![d]!;
}
