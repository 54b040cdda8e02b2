import { generalisedInverse, generalisedQuadraticForm, type SymmetricMatrix } from "./symmetric";

/** Ordered outcomes with the rows of a design they belong to. */
export interface OrdinalData {
  /** Distinct rows of the design, without a constant; independent columns. */
  readonly design: readonly (readonly number[])[];
  /** Row of `design` of each box. */
  readonly row: ArrayLike<number>;
  /** Category of each box, 0 … categories − 1, every one of them met. */
  readonly category: ArrayLike<number>;
  readonly categories: number;
}

export interface CumulativeLogit {
  /** α_j of logit P(Y ≤ j) = α_j − x′β, rising. */
  readonly thresholds: readonly number[];
  /** β: positive means larger outcomes. */
  readonly coefficients: readonly number[];
  /** Inverse observed information of (α, β), boxes taken as independent. */
  readonly covariance: SymmetricMatrix;
  readonly logLikelihood: number;
  readonly iterations: number;
}

export type CumulativeLogitFit =
  | ({ readonly ok: true } & CumulativeLogit)
  /** SEPARATED: some row met only the lowest or only the highest category, so that a coefficient runs away. */
  | { readonly ok: false; readonly reason: "NO_VARIATION" | "NOT_LINKED" | "SEPARATED" };

/** First and second derivatives of ln P(Y = category) for one row of the design. */
export interface OrdinalTerm {
  readonly log: number;
  /** By (α, β). */
  readonly score: readonly number[];
  /** Minus the second derivatives: Σ weight · left right′ over these. */
  readonly curvature: readonly {
    readonly weight: number;
    readonly left: number[];
    readonly right: number[];
  }[];
}

const MAX_ITERATIONS = 50;
/** A sum of logarithms is good to this share of itself. */
const LOG_ROUNDING = 1e-12;
const CONVERGED_DECREMENT = 1e-14;
/** Log odds no set of boxes can support. */
const RUN_AWAY = 15;

/**
 * Proportional odds by maximum likelihood (McCullagh 1980, JRSS B 42:109–142): Newton steps on the concave
 * log-likelihood, halved until it rises.
 */
export function fitCumulativeLogit(data: OrdinalData): CumulativeLogitFit {
  const { design, categories } = data;
  if (categories < 2) return { ok: false, reason: "NO_VARIATION" };
  const counts = countBoxes(data);
  let theta = startingValues(counts, design[0]!.length);
  for (let iteration = 1; iteration <= MAX_ITERATIONS; iteration++) {
    const { log, score, information } = evaluate(design, counts, theta);
    if (iteration === 1 && generalisedQuadraticForm(score, information).rank < theta.length)
      return { ok: false, reason: "NOT_LINKED" };
    const covariance = generalisedInverse(information);
    const step = covariance.map((row) => dot(row, score));
    if (dot(step, score) < CONVERGED_DECREMENT) {
      const [thresholds, coefficients] = [theta.slice(0, categories - 1), theta.slice(categories - 1)];
      return { ok: true, thresholds, coefficients, covariance, logLikelihood: log, iterations: iteration };
    }
    theta = climb(design, counts, theta, step, log);
    if (theta.some((x) => Math.abs(x) > RUN_AWAY)) break;
  }
  return { ok: false, reason: "SEPARATED" };
}

/** ln P(Y = category) and its derivatives at `theta` = (α, β) for the design row x. */
export function ordinalTerm(
  x: readonly number[],
  category: number,
  categories: number,
  theta: readonly number[],
): OrdinalTerm {
  const along = dot(x, theta.slice(categories - 1));
  const edge = (j: number) => {
    if (j < 0 || j >= categories - 1) return null;
    const F = 1 / (1 + Math.exp(along - theta[j]!));
    const direction = [
      ...theta.slice(0, categories - 1).map((_, i) => Number(i === j)),
      ...x.map((xi) => -xi),
    ];
    return { F, f: F * (1 - F), slope: F * (1 - F) * (1 - 2 * F), direction };
  };
  const [high, low] = [edge(category), edge(category - 1)];
  const P = (high?.F ?? 1) - (low?.F ?? 0);
  const [uHigh, uLow] = [(high?.f ?? 0) / P, (low?.f ?? 0) / P];
  const score = theta.map((_, i) => uHigh * (high?.direction[i] ?? 0) - uLow * (low?.direction[i] ?? 0));
  const curvature: { weight: number; left: number[]; right: number[] }[] = [];
  if (high)
    curvature.push({ weight: uHigh ** 2 - high.slope / P, left: high.direction, right: high.direction });
  if (low) curvature.push({ weight: uLow ** 2 + low.slope / P, left: low.direction, right: low.direction });
  if (high && low) {
    curvature.push({ weight: -uHigh * uLow, left: high.direction, right: low.direction });
    curvature.push({ weight: -uHigh * uLow, left: low.direction, right: high.direction });
  }
  return { log: Math.log(P), score, curvature };
}

/** Adds weight · (minus the second derivatives) of the term to `information`. */
export function addCurvature(information: number[][], { curvature }: OrdinalTerm, boxes: number): void {
  for (const { weight, left, right } of curvature) {
    left.forEach((l, a) => {
      if (l === 0) return;
      const row = information[a]!;
      right.forEach((r, b) => {
        row[b]! += boxes * weight * l * r;
      });
    });
  }
}

/** Boxes per design row and category. */
function countBoxes({ design, row, category, categories }: OrdinalData): number[][] {
  const counts = design.map(() => new Array<number>(categories).fill(0));
  for (let i = 0; i < row.length; i++) counts[row[i]!]![category[i]!]! += 1;
  return counts;
}

/** The thresholds without any effect. */
function startingValues(counts: readonly (readonly number[])[], coefficients: number): number[] {
  const totals = counts[0]!.map((_, c) => counts.reduce((sum, row) => sum + row[c]!, 0));
  const boxes = totals.reduce((sum, x) => sum + x, 0);
  let below = 0;
  const thresholds = totals.slice(0, -1).map((count) => {
    below += count;
    return Math.log(below / (boxes - below));
  });
  return [...thresholds, ...new Array<number>(coefficients).fill(0)];
}

function evaluate(
  design: readonly (readonly number[])[],
  counts: readonly (readonly number[])[],
  theta: readonly number[],
) {
  const score = theta.map(() => 0);
  const information = theta.map(() => theta.map(() => 0));
  let log = 0;
  counts.forEach((byCategory, r) => {
    byCategory.forEach((boxes, category) => {
      if (boxes === 0) return;
      const term = ordinalTerm(design[r]!, category, byCategory.length, theta);
      log += boxes * term.log;
      term.score.forEach((s, i) => {
        score[i]! += boxes * s;
      });
      addCurvature(information, term, boxes);
    });
  });
  return { log, score, information };
}

function climb(
  design: readonly (readonly number[])[],
  counts: readonly (readonly number[])[],
  theta: readonly number[],
  step: readonly number[],
  log: number,
): number[] {
  for (let share = 1; share > 1e-8; share /= 2) {
    const next = theta.map((x, i) => x + share * step[i]!);
    // Thresholds out of order give a probability below 0, whose logarithm is not a number: not a rise.
    if (evaluate(design, counts, next).log >= log - LOG_ROUNDING * Math.abs(log)) return next;
  }
  return [...theta];
}

function dot(x: readonly number[], y: readonly number[]): number {
  return x.reduce((sum, xi, i) => sum + xi * y[i]!, 0);
}
