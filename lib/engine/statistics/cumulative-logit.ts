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

/**
 * ln P(Y = j) of one row x of the design and its derivatives, category by category. By α they concern α_j and α_{j−1}
 * only, by β they are multiples of x: the score is `above`[j] at α_j, −`below`[j] at α_{j−1}, −(above − below)x at β.
 */
export interface OrdinalRow {
  readonly log: Float64Array;
  readonly above: Float64Array;
  readonly below: Float64Array;
  /** Minus the second derivatives: by α_j twice, α_{j−1} twice, and the two together. */
  readonly aboveTwice: Float64Array;
  readonly belowTwice: Float64Array;
  readonly both: Float64Array;
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
    const rows = rowsAt(design, theta, categories);
    const log = logLikelihood(rows, counts);
    const score = scoreOf(design, rows, counts);
    const information = informationOf(design, rows, counts);
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

/** What every row of the design gives at `theta` = (α, β). */
export function rowsAt(
  design: OrdinalData["design"],
  theta: readonly number[],
  categories: number,
): OrdinalRow[] {
  const thresholds = theta.slice(0, categories - 1);
  const coefficients = theta.slice(categories - 1);
  return design.map((x) => ordinalRow(thresholds, dot(x, coefficients)));
}

function ordinalRow(thresholds: readonly number[], along: number): OrdinalRow {
  const categories = thresholds.length + 1;
  const column = () => new Float64Array(categories);
  const row = {
    log: column(),
    above: column(),
    below: column(),
    aboveTwice: column(),
    belowTwice: column(),
    both: column(),
  };
  // F = P(Y ≤ j − 1), then P(Y ≤ j), with its derivative by α and that one's.
  let [F, f, slope] = [0, 0, 0];
  for (let j = 0; j < categories; j++) {
    const [lowF, lowf, lowSlope] = [F, f, slope];
    F = j === categories - 1 ? 1 : 1 / (1 + Math.exp(along - thresholds[j]!));
    f = F * (1 - F);
    slope = f * (1 - 2 * F);
    const P = F - lowF;
    row.log[j] = Math.log(P);
    row.above[j] = f / P;
    row.below[j] = lowf / P;
    row.aboveTwice[j] = (f / P) ** 2 - slope / P;
    row.belowTwice[j] = (lowf / P) ** 2 + lowSlope / P;
    row.both[j] = (-f * lowf) / (P * P);
  }
  return row;
}

/** Boxes by row of the design and category. */
export type OrdinalCounts = readonly (readonly number[])[];

/** Minus the second derivatives of the log-likelihood by (α, β), both triangles. */
export function informationOf(
  design: OrdinalData["design"],
  rows: readonly OrdinalRow[],
  counts: OrdinalCounts,
): number[][] {
  const edges = counts[0]!.length - 1;
  const information = design[0]!.map((_, a) =>
    informationWith(
      design.map((x) => x[a]!),
      design,
      rows,
      counts,
    ),
  );
  const byThresholds = Array.from({ length: edges }, (_, j) => [
    ...new Array<number>(edges).fill(0),
    ...information.map((row) => row[j]!),
  ]);
  rows.forEach(({ aboveTwice, belowTwice, both }, r) => {
    counts[r]!.forEach((boxes, j) => {
      if (j < edges) byThresholds[j]![j]! += boxes * aboveTwice[j]!;
      if (j > 0) byThresholds[j - 1]![j - 1]! += boxes * belowTwice[j]!;
      if (j === 0 || j === edges) return;
      byThresholds[j]![j - 1]! += boxes * both[j]!;
      byThresholds[j - 1]![j]! += boxes * both[j]!;
    });
  });
  return [...byThresholds, ...information];
}

/** The same by the coefficient of another column of the design, once, and by (α, β). */
export function informationWith(
  column: ArrayLike<number>,
  design: OrdinalData["design"],
  rows: readonly OrdinalRow[],
  counts: OrdinalCounts,
): number[] {
  const edges = counts[0]!.length - 1;
  const information = new Array<number>(edges + design[0]!.length).fill(0);
  rows.forEach(({ aboveTwice, belowTwice, both }, r) => {
    const value = column[r]!;
    if (value === 0) return;
    let total = 0;
    counts[r]!.forEach((boxes, j) => {
      const [above, below] = [boxes * (aboveTwice[j]! + both[j]!), boxes * (belowTwice[j]! + both[j]!)];
      if (j < edges) information[j]! -= value * above;
      if (j > 0) information[j - 1]! -= value * below;
      total += above + below;
    });
    design[r]!.forEach((x, a) => {
      information[edges + a]! += value * total * x;
    });
  });
  return information;
}

function logLikelihood(rows: readonly OrdinalRow[], counts: OrdinalCounts): number {
  return rows.reduce(
    (sum, { log }, r) =>
      counts[r]!.reduce((own, boxes, j) => (boxes === 0 ? own : own + boxes * log[j]!), sum),
    0,
  );
}

/** First derivatives by (α, β). */
function scoreOf(
  design: OrdinalData["design"],
  rows: readonly OrdinalRow[],
  counts: OrdinalCounts,
): number[] {
  const edges = counts[0]!.length - 1;
  const score = new Array<number>(edges + design[0]!.length).fill(0);
  rows.forEach(({ above, below }, r) => {
    let along = 0;
    counts[r]!.forEach((boxes, j) => {
      if (boxes === 0) return;
      if (j < edges) score[j]! += boxes * above[j]!;
      if (j > 0) score[j - 1]! -= boxes * below[j]!;
      along += boxes * (above[j]! - below[j]!);
    });
    design[r]!.forEach((x, a) => {
      score[edges + a]! -= along * x;
    });
  });
  return score;
}

/** Boxes per design row and category. */
export function countBoxes({ design, row, category, categories }: OrdinalData): number[][] {
  const counts = design.map(() => new Array<number>(categories).fill(0));
  for (let i = 0; i < row.length; i++) counts[row[i]!]![category[i]!]! += 1;
  return counts;
}

/** The thresholds without any effect. */
function startingValues(counts: OrdinalCounts, coefficients: number): number[] {
  const totals = counts[0]!.map((_, c) => counts.reduce((sum, row) => sum + row[c]!, 0));
  const boxes = totals.reduce((sum, x) => sum + x, 0);
  let below = 0;
  const thresholds = totals.slice(0, -1).map((count) => {
    below += count;
    return Math.log(below / (boxes - below));
  });
  return [...thresholds, ...new Array<number>(coefficients).fill(0)];
}

function climb(
  design: readonly (readonly number[])[],
  counts: OrdinalCounts,
  theta: readonly number[],
  step: readonly number[],
  log: number,
): number[] {
  for (let share = 1; share > 1e-8; share /= 2) {
    const next = theta.map((x, i) => x + share * step[i]!);
    // Thresholds out of order give a probability below 0, whose logarithm is not a number: not a rise.
    const there = logLikelihood(rowsAt(design, next, counts[0]!.length), counts);
    if (there >= log - LOG_ROUNDING * Math.abs(log)) return next;
  }
  return [...theta];
}

function dot(x: readonly number[], y: readonly number[]): number {
  return x.reduce((sum, xi, i) => sum + xi * y[i]!, 0);
}
