import type { PoolColumns } from "../columns";
import type { SetGroup } from "./availability";
import type { Evaluation, MixedProblem } from "./criterion";

/** The random terms, in the order used everywhere. Outing is the block; growerArm is grower × arm. */
export const RANDOM_TERMS = ["outing", "grower", "growerArm"] as const;
export type RandomTerm = (typeof RANDOM_TERMS)[number];
export type VarianceName = RandomTerm | "residual";

export interface MixedOptions {
  /** Which random terms the model has; all three where not given. */
  readonly random?: readonly RandomTerm[];
  /**
   * Outings as fixed effects: arms are compared within outings only, and neither availability nor the grower
   * matters. Cell means can't be given then. Stands beside the main fit.
   */
  readonly fixedOutings?: boolean;
  /** A set of arms at hand that fewer growers of a band had than this is merged; 3 where not given. */
  readonly rareSetGrowers?: number;
}

/**
 * What a reader of a fit has to know.
 * - ZERO: the variance's best value is 0; intervals treat it as known to be 0, as lme4 does.
 * - NOT_SEPARABLE: nothing in the data tells this term from those named in `within`; it is left out, and their
 *   variances hold the sum.
 * - FLAT: the criterion hardly changes along some direction of the variances; they are told apart badly.
 * - NOT_CONVERGED: the search ended before the slope was level; the figures are not the best fit.
 * - RESIDUAL_VANISHES: boxes alike in all terms hardly differ; ratios of variances ran to their limit.
 * - SETS_MERGED: these availability sets of the band were too rare and count as one, or as `into`.
 */
export type MixedWarning =
  | { readonly code: "ZERO"; readonly term: RandomTerm }
  | { readonly code: "NOT_SEPARABLE"; readonly term: RandomTerm; readonly within: readonly VarianceName[] }
  | { readonly code: "FLAT" | "NOT_CONVERGED" | "RESIDUAL_VANISHES" }
  | {
      readonly code: "SETS_MERGED";
      readonly band: string;
      readonly sets: readonly string[];
      /** The set they joined; null: a set of their own. */
      readonly into: string | null;
    };

/** A cell with at least one measured box. */
export interface MixedCell {
  readonly band: string;
  readonly arm: string;
  readonly boxes: number;
  readonly outings: number;
  readonly growers: number;
}

/** One term of a contrast. */
export interface CellWeight {
  readonly band: string;
  readonly arm: string;
  readonly weight: number;
}

/** Why a figure can't be had from these data. */
export type NotEstimable =
  /** A cell has no measured box. */
  | "NO_BOXES"
  /** No chain of outings or growers links the cells: they were tried by unconnected groups of growers. */
  | "NOT_LINKED"
  /** The cells were only had by growers with different arms at hand; arm and availability can't be told apart. */
  | "AVAILABILITY"
  /** With fixed outings only comparisons within outings exist. */
  | "WITHIN_OUTINGS_ONLY";

/** An estimate with its standard error, both in the outcome's unit; df by Satterthwaite's method. */
export type MixedEstimate =
  | { readonly estimable: true; readonly estimate: number; readonly se: number; readonly df: number }
  | { readonly estimable: false; readonly reason: NotEstimable };

/** Why no model can be fitted. */
export type MixedRefusal =
  /** No box has a measured outcome. */
  | "NO_BOXES"
  /** There are not more boxes than means to estimate. */
  | "TOO_FEW_BOXES"
  /** All boxes of each cell have the same outcome, or nearly so, or all that differs stands in the fixed effects. */
  | "NO_VARIATION";

/** The fitted model, with what it takes to derive any contrast from it. */
export interface MixedFit {
  readonly method: "REML";
  /** The terms asked for. */
  readonly random: readonly RandomTerm[];
  readonly fixedOutings: boolean;
  /** Boxes with a measured outcome; their outings and growers. */
  readonly boxes: number;
  readonly outings: number;
  readonly growers: number;
  /** Boxes without one, which the fit leaves out. */
  readonly unmeasured: number;
  /** −2 log restricted likelihood, on lme4's scale. */
  readonly criterion: number;
  /** How often the criterion was computed from all growers, and from some of them only to find a start. */
  readonly evaluations: number;
  readonly startEvaluations: number;
  readonly converged: boolean;
  readonly warnings: readonly MixedWarning[];
  /** Squared outcome units. Null: not in the model, or not separable (see the warnings). */
  readonly variance: Readonly<Record<VarianceName, number | null>>;
  /** Asymptotic covariance of the variances that are neither null nor 0, in the order of `names`. */
  readonly varianceCovariance: {
    readonly names: readonly VarianceName[];
    readonly matrix: readonly (readonly number[])[];
  };
  /** Sorted by band and arm, in the order of their labels. */
  readonly cells: readonly MixedCell[];
  readonly solution: MixedSolution;
}

/** The solved equations behind a fit; `contrast` and its like read them. */
export interface MixedSolution {
  readonly labels: PoolColumns["labels"];
  readonly problem: MixedProblem;
  readonly evaluation: Evaluation;
  /** ∂(F′V⁻¹F)⁻¹/∂λ_k = (F′V⁻¹F)⁻¹·`squares`·(F′V⁻¹F)⁻¹ per random term: how contrasts' variances follow λ. */
  readonly covarianceSlopes: readonly Float64Array[];
  /** The fixed column of a cell, null where it has no measured box. */
  readonly columnOf: (band: string, arm: string) => number | null;
  /** Availability groups, in the order of their fixed columns. */
  readonly setGroups: readonly SetGroup[];
}

export type MixedFitResult =
  | { readonly ok: true; readonly fit: MixedFit }
  | { readonly ok: false; readonly reason: MixedRefusal };
