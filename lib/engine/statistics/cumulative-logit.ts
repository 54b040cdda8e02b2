import {
  informationOf,
  logLikelihood,
  type OrdinalCounts,
  type OrdinalData,
  rowsAt,
  scoreOf,
} from "./ordinal-rows";
import { generalisedInverse, generalisedQuadraticForm, type SymmetricMatrix } from "./symmetric";

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
