import type { Criterion, Evaluation } from "./criterion";
import { type Curvature, curvatureAt } from "./curvature";
import { minimise, type SlopedValue, UPPER } from "./minimise";
import { RatioScale } from "./ratio-scale";
import type { RandomTerm } from "./types";

/** With more growers than this the search starts from the best fit to about this many of them. */
const SAMPLE_GROWERS = 2500;
/** A coordinate below this counts as 0: it changes no figure in any digit that is shown. */
const NEAR_ZERO = 1e-7;
/**
 * The criterion's excess over its minimum, per grower, at which the search is done. A variance's relative standard
 * error is about √(2/growers), so that variances are then off by some 1e-7 of themselves, whatever the trial's size.
 */
const EXCESS_PER_GROWER = 1e-14;
/** What the search must reach to call itself converged: variances are within 1e-4 of their standard errors. */
const CONVERGED = 5e-9;
/** The start needs no more than this; the sample's own error is larger. */
const SAMPLE_TOLERANCE = 1e-4;
const MAX_ROUNDS = 3;
/** A modest first guess. */
const FIRST_RATIOS = { outing: 0.2, grower: 0.2, growerArm: 0.2 };

export interface RatioSearch {
  /** Coordinates of `RatioScale`. */
  readonly x: readonly number[];
  readonly evaluation: Evaluation;
  readonly curvature: Curvature;
  /** Evaluations from all growers, and from a part of them to find a start. */
  readonly evaluations: number;
  readonly startEvaluations: number;
  readonly converged: boolean;
}

interface Sloped extends SlopedValue {
  readonly evaluation: Evaluation;
}

/**
 * The variance ratios of the terms that minimise the criterion. Large data start from the fit to a fixed part of the
 * growers and its curvature, so that few evaluations need all of them. The search ends when the slope is level by
 * the criterion's true second derivatives.
 */
export function searchRatios(criterion: Criterion, terms: readonly RandomTerm[]): RatioSearch {
  const { data } = criterion.problem;
  const scale = new RatioScale(data, terms);
  const from = (stride: number) => (x: readonly number[]) => slopedAt(criterion, scale, x, stride);
  const guess = scale.firstCurvature();
  let start = { x: scale.from(FIRST_RATIOS), curvature: guess };
  let startEvaluations = 0;
  const stride = sampleStride(data.growerCount);
  if (stride > 1 && from(stride)(start.x) !== null) {
    const sample = minimise(
      from(stride),
      { x: start.x, curvature: times(guess, 1 / stride) },
      SAMPLE_TOLERANCE,
    );
    startEvaluations = sample.evaluations + 1;
    start = { x: [...sample.x], curvature: times(sample.curvature, stride) };
  }
  const tolerance = EXCESS_PER_GROWER * data.growerCount;
  let evaluations = 0;
  for (let round = 1; ; round++) {
    const minimum = minimise(from(1), start, tolerance);
    const x = minimum.x.map((value) => (value < NEAR_ZERO ? 0 : value));
    const snapped = x.some((value, k) => value !== minimum.x[k]);
    const at = (snapped ? from(1)(x) : null) ?? minimum.at;
    const curvature = curvatureAt(criterion, scale, x, at.evaluation);
    evaluations += minimum.evaluations + Number(snapped) + curvature.evaluations;
    const settled = curvature.excess < 10 * tolerance;
    const atLimit = x.some((value) => value === UPPER);
    if (settled || atLimit || round === MAX_ROUNDS) {
      const converged = curvature.excess < Math.max(CONVERGED, 10 * tolerance);
      return { x, evaluation: at.evaluation, curvature, evaluations, startEvaluations, converged };
    }
    start = {
      x,
      curvature: guess.map((row, k) => (x[k]! > 0 ? [...curvature.profiled[k]!] : row)),
    };
  }
}

function slopedAt(
  criterion: Criterion,
  scale: RatioScale,
  x: readonly number[],
  stride: number,
): Sloped | null {
  const evaluation = criterion.evaluate(scale.ratiosOf(x), stride);
  if (evaluation === null) return null;
  return { value: evaluation.criterion, slope: scale.slopeOf(x, evaluation.slope), evaluation };
}

/** Every how manyth grower the start is made of; shares no factor with small cycles the rows may come in. */
function sampleStride(growers: number): number {
  if (growers < 2 * SAMPLE_GROWERS) return 1;
  let stride = Math.floor(growers / SAMPLE_GROWERS);
  while ([2, 3, 5, 7].some((factor) => stride % factor === 0)) stride += 1;
  return stride;
}

function times(matrix: readonly (readonly number[])[], factor: number): number[][] {
  return matrix.map((row) => row.map((value) => value * factor));
}
