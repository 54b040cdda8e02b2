import { tQuantile, tUpperTail } from "../distributions";
import { increasingRoot } from "../root";
import { satterthwaite, varianceSlope } from "./contrasts";
import { Criterion, type Evaluation } from "./criterion";
import { combine } from "./fixed-combination";
import { minimise, type Start } from "./minimise";
import { RatioScale } from "./ratio-scale";
import type { CellWeight, MixedEstimate, MixedFit, NotEstimable, RandomTerm } from "./types";

/**
 * What a new grower would see between two arms with one box of each in one set: the difference's estimate with the
 * standard error of a prediction, v + 2σ²_ga + 2σ², and Satterthwaite's df for that sum. Outing and grower cancel.
 */
export function predictedDifference(
  fit: MixedFit,
  band: string,
  first: string,
  second: string,
): MixedEstimate {
  const combination = combine(fit, differenceOf(band, first, second));
  if ("reason" in combination) return { estimable: false, reason: combination.reason };
  const { variance, slope } = varianceSlope(fit, combination);
  const { names } = fit.varianceCovariance;
  const perBox = new Set(["growerArm", "residual"]);
  const total = variance + 2 * ((fit.variance.growerArm ?? 0) + fit.variance.residual!);
  const df = satterthwaite(
    fit,
    total,
    slope.map((value, i) => value + (perBox.has(names[i]!) ? 2 : 0)),
  );
  return { estimable: true, estimate: combination.estimate, se: Math.sqrt(total), df };
}

/** One value of the grower × arm variance, how likely it is, and the model solved at it. */
interface PosteriorPoint {
  readonly weight: number;
  readonly evaluation: Evaluation;
}

/** The grower × arm variance's uncertainty, for all differences of a fit. */
export interface GrowerArmPosterior {
  readonly points: readonly PosteriorPoint[];
  readonly evaluations: number;
}

const POINTS = 25;
/** The criterion's excess beyond which a value carries no weight: e^(−12/2) = 0.2 %. */
const NEGLIGIBLE = 12;
/** Standard deviations beyond this multiple of the residual one are not looked at. */
const LARGEST = 1e3;
/** With more growers the other variances are kept at their best values: they are then known well. */
const REFIT_GROWERS = 3000;
/** Relative; far below anything shown. */
const QUANTILE_TOLERANCE = 1e-12;

/**
 * Points over the grower × arm standard deviation (relative to the residual one), evenly spaced, weighted by the
 * restricted likelihood with a uniform prior on it (Gelman 2006, Bayesian Analysis 1:515–534), the other variances
 * at their best for each. A best value of 0 so doesn't pass for knowledge that growers agree. Null where grower × arm
 * is not in the model or not separable.
 */
export function growerArmPosterior(fit: MixedFit): GrowerArmPosterior | null {
  const { problem, evaluation } = fit.solution;
  if (fit.variance.growerArm === null) return null;
  const criterion = new Criterion(problem);
  let evaluations = 0;
  const solveAt = profileOver(fit, criterion, (count) => {
    evaluations += count;
  });
  const best = Math.sqrt(evaluation.ratios.growerArm);
  const excess = (deviation: number) => {
    const there = solveAt(deviation);
    return there === null ? Number.POSITIVE_INFINITY : there.criterion - evaluation.criterion;
  };
  let outside = best + 0.5;
  while (excess(outside) < NEGLIGIBLE && outside < LARGEST) outside *= 2;
  const upper = crossing(excess, best, outside);
  const lower = excess(0) < NEGLIGIBLE ? 0 : crossing(excess, best, 0);
  const points: PosteriorPoint[] = [];
  for (let i = 0; i < POINTS; i++) {
    // Midpoints of equal parts.
    const there = solveAt(lower + ((upper - lower) * (i + 0.5)) / POINTS);
    if (there === null) continue;
    points.push({ weight: Math.exp((evaluation.criterion - there.criterion) / 2), evaluation: there });
  }
  const total = points.reduce((sum, point) => sum + point.weight, 0);
  return { points: points.map((point) => ({ ...point, weight: point.weight / total })), evaluations };
}

export type TrueDifference =
  | {
      readonly estimable: true;
      readonly estimate: number;
      readonly lower: number;
      readonly upper: number;
    }
  | { readonly estimable: false; readonly reason: NotEstimable };

/**
 * The interval at `level` for a new grower's true difference first − second (no box's chance in it): a mixture, over
 * the grower × arm variance's posterior, of t distributions with variance v + 2σ²_ga and the model's df.
 */
export function trueDifference(
  fit: MixedFit,
  posterior: GrowerArmPosterior,
  band: string,
  first: string,
  second: string,
  level: number,
): TrueDifference {
  const combination = combine(fit, differenceOf(band, first, second));
  if ("reason" in combination) return { estimable: false, reason: combination.reason };
  const { weights, support } = combination;
  const parts = posterior.points.map(({ weight, evaluation }) => {
    const columns = weights.length;
    let perResidual = 2 * evaluation.ratios.growerArm;
    let shift = 0;
    for (const j of support) {
      shift += weights[j]! * (evaluation.fixed[j]! - fit.solution.evaluation.fixed[j]!);
      for (const i of support)
        perResidual += weights[j]! * weights[i]! * evaluation.inverse[j * columns + i]!;
    }
    return {
      weight,
      centre: combination.estimate + shift,
      se: Math.sqrt(evaluation.residual * perResidual),
      df: evaluation.df,
    };
  });
  const tail = (1 - level) / 2;
  return {
    estimable: true,
    estimate: combination.estimate,
    lower: mixtureQuantile(parts, tail),
    upper: mixtureQuantile(parts, 1 - tail),
  };
}

interface MixturePart {
  readonly weight: number;
  readonly centre: number;
  readonly se: number;
  readonly df: number;
}

/** The p quantile of a mixture of shifted and scaled t distributions; it lies between its parts' quantiles. */
function mixtureQuantile(parts: readonly MixturePart[], p: number): number {
  const each = parts.map(({ centre, se, df }) => centre + se * tQuantile(p, df));
  const excess = (x: number) =>
    1 -
    p -
    parts.reduce((sum, part) => sum + part.weight * tUpperTail((x - part.centre) / part.se, part.df), 0);
  return increasingRoot(excess, Math.min(...each), Math.max(...each), QUANTILE_TOLERANCE);
}

/** A place between, at most a 64th of the way outside of where the excess stops being negligible. */
function crossing(excess: (deviation: number) => number, inside: number, outside: number): number {
  let [near, far] = [inside, outside];
  for (let halving = 0; halving < 6; halving++) {
    const middle = (near + far) / 2;
    if (excess(middle) < NEGLIGIBLE) near = middle;
    else far = middle;
  }
  return far;
}

/** The model solved at a grower × arm deviation, the other ratios at their best for it. */
function profileOver(fit: MixedFit, criterion: Criterion, count: (evaluations: number) => void) {
  const { data } = fit.solution.problem;
  const { ratios } = fit.solution.evaluation;
  const others = (["outing", "grower"] as const).filter((term: RandomTerm) => fit.variance[term] !== null);
  const scale = new RatioScale(data, others);
  let start: Start = { x: scale.from(ratios), curvature: scale.firstCurvature() };
  return (deviation: number): Evaluation | null => {
    const growerArm = deviation * deviation;
    if (data.growerCount > REFIT_GROWERS || fit.fixedOutings) {
      count(1);
      return criterion.evaluate({ ...ratios, growerArm });
    }
    const minimum = minimise(
      (x) => {
        const evaluation = criterion.evaluate({ ...scale.ratiosOf(x), growerArm });
        if (evaluation === null) return null;
        return { value: evaluation.criterion, slope: scale.slopeOf(x, evaluation.slope), evaluation };
      },
      start,
      1e-4,
    );
    count(minimum.evaluations);
    start = minimum;
    return minimum.at.evaluation;
  };
}

function differenceOf(band: string, first: string, second: string): CellWeight[] {
  return [
    { band, arm: first, weight: 1 },
    { band, arm: second, weight: -1 },
  ];
}
