import type { VarianceRatios } from "./grower-system";
import type { SufficientData } from "./sufficient";
import { RANDOM_TERMS, type RandomTerm } from "./types";

/**
 * The search's coordinates: x = log(1 + sλ) for each variance ratio λ ≥ 0 of the model, s the mean number of boxes
 * that share a level of the term. Near 0 it runs with λ, so that 0 is an ordinary bound; far out with log λ, along
 * which the criterion is nearly quadratic.
 */
export class RatioScale {
  readonly terms: readonly RandomTerm[];
  /** How many levels each term has. */
  readonly levels: readonly number[];
  readonly #boxesPerLevel: readonly number[];

  constructor(data: SufficientData, terms: readonly RandomTerm[]) {
    this.terms = terms;
    this.levels = terms.map((term) => levelsOf(data, term));
    this.#boxesPerLevel = this.levels.map((count) => data.boxes / count);
  }

  /** The ratios at x; terms outside the model have 0. */
  ratiosOf(x: readonly number[]): VarianceRatios {
    const ratios = { outing: 0, grower: 0, growerArm: 0 };
    this.terms.forEach((term, k) => {
      ratios[term] = Math.expm1(x[k]!) / this.#boxesPerLevel[k]!;
    });
    return ratios;
  }

  /** The x of these ratios. */
  from(ratios: VarianceRatios): number[] {
    return this.terms.map((term, k) => Math.log1p(this.#boxesPerLevel[k]! * ratios[term]));
  }

  /**
   * A rough guess at the criterion's second derivatives. The information on a variance's logarithm is about half its
   * levels; a quarter leaves room for what terms share.
   */
  firstCurvature(): number[][] {
    return this.levels.map((count, k) => this.levels.map((_, l) => (k === l ? count / 4 : 0)));
  }

  /** dλ_k/dx_k. */
  derivative(k: number, x: number): number {
    return Math.exp(x) / this.#boxesPerLevel[k]!;
  }

  /** A slope along the ratios (outing, grower, growerArm) as one along x. */
  slopeOf(x: readonly number[], slope: Float64Array): number[] {
    return this.terms.map((term, k) => slope[RANDOM_TERMS.indexOf(term)]! * this.derivative(k, x[k]!));
  }
}

/** The ratios as the growers' equations take them: fixed outings are an infinite variance. */
export function ratiosUsed(ratios: VarianceRatios, fixedOutings: boolean): VarianceRatios {
  return fixedOutings ? { ...ratios, outing: Number.POSITIVE_INFINITY } : ratios;
}

function levelsOf(data: SufficientData, term: RandomTerm): number {
  if (term === "outing") return data.outingBoxes.length;
  if (term === "grower") return data.growerCount;
  return data.ownArms.reduce((sum, arms) => sum + arms, 0);
}
