import type { BinaryOuting } from "./binary-outings";
import { conditionalTerm } from "./conditional-likelihood";
import { fUpperTail } from "./distributions";
import { generalisedInverse, generalisedQuadraticForm, type SymmetricMatrix } from "./symmetric";

export interface ConditionalLogistic {
  readonly method: "CONDITIONAL_LOGISTIC_BY_OUTING";
  /** Log odds of each arm relative to the mean over arms; null where `reason` stands. */
  readonly logOdds: readonly number[] | null;
  /** Covariance of `logOdds` over growers. Its contrasts are to be read with t(growers − 1). */
  readonly covariance: SymmetricMatrix | null;
  /** The same as if outings were independent: inverse information. */
  readonly modelCovariance: SymmetricMatrix | null;
  readonly logLikelihood: number | null;
  /** "All arms alike": F = W(G − q)/(q(G − 1)) on q and G − q, W Wald's χ² over growers, G growers. */
  readonly test: {
    readonly statistic: number;
    readonly df1: number;
    readonly df2: number;
    readonly p: number;
  } | null;
  /** Of the outings in which some but not all boxes had the event and arms differed. */
  readonly boxes: number;
  readonly outings: number;
  readonly growers: number;
  readonly converged: boolean;
  readonly iterations: number;
  /** SEPARATED: an arm always or never had the event beside the others, so that its odds are 0 or infinite. */
  readonly reason: "NO_VARIATION" | "NOT_LINKED" | "SEPARATED" | "TOO_FEW_GROWERS" | null;
}

const MAX_ITERATIONS = 40;
/** The search ends when a Newton step promises less than this in log-likelihood. */
const CONVERGED_DECREMENT = 1e-12;
/** Odds of e^12 within an outing are no estimate any more. */
const SEPARATED_BEYOND = 12;
const MINIMUM_GROWERS = 3;

/**
 * Odds of the event per arm within outings by conditional logistic regression (exact conditional likelihood of each
 * outing), for any number of arms: unlike pairwise Mantel–Haenszel figures its differences add up. Variances are
 * sandwiches over growers, I⁻¹ Σ u_g u_g′ I⁻¹ · G/(G − 1), u_g a grower's score. Arms are 0 … `armCount` − 1; an arm
 * no informative outing links to the others gives NOT_LINKED.
 */
export function conditionalLogistic(outings: readonly BinaryOuting[], armCount: number): ConditionalLogistic {
  const strata = outings.filter(({ arms, events }) => new Set(arms).size > 1 && new Set(events).size > 1);
  const growers = new Set(strata.map(({ grower }) => grower)).size;
  const refused = (
    reason: NonNullable<ConditionalLogistic["reason"]>,
    iterations = 0,
  ): ConditionalLogistic => ({
    method: "CONDITIONAL_LOGISTIC_BY_OUTING",
    logOdds: null,
    covariance: null,
    modelCovariance: null,
    logLikelihood: null,
    test: null,
    boxes: strata.reduce((sum, { arms }) => sum + arms.length, 0),
    outings: strata.length,
    growers,
    converged: false,
    iterations,
    reason,
  });
  if (strata.length === 0) return refused("NO_VARIATION");
  if (growers < MINIMUM_GROWERS) return refused("TOO_FEW_GROWERS");
  let beta = new Array<number>(armCount).fill(0);
  for (let iteration = 1; iteration <= MAX_ITERATIONS; iteration++) {
    const { log, score, information, byGrower } = evaluate(strata, beta, armCount);
    const { value: decrement, rank } = generalisedQuadraticForm(score, information);
    if (iteration === 1 && rank < armCount - 1) return refused("NOT_LINKED");
    const inverse = generalisedInverse(information);
    if (decrement < CONVERGED_DECREMENT) {
      const meat = outerSum([...byGrower.values()], armCount);
      const scale = growers / (growers - 1);
      const covariance = sandwich(inverse, meat, scale);
      return {
        ...refused("NO_VARIATION", iteration),
        logOdds: beta,
        covariance,
        modelCovariance: inverse,
        logLikelihood: log,
        test: waldF(beta, covariance, growers),
        converged: true,
        reason: null,
      };
    }
    const step = multiply(inverse, score);
    beta = climb(strata, beta, step, log, armCount);
    if (Math.max(...beta) - Math.min(...beta) > SEPARATED_BEYOND) return refused("SEPARATED", iteration);
  }
  return refused("SEPARATED", MAX_ITERATIONS);
}

function evaluate(strata: readonly BinaryOuting[], beta: readonly number[], armCount: number) {
  const score = new Array<number>(armCount).fill(0);
  const information = Array.from({ length: armCount }, () => new Array<number>(armCount).fill(0));
  const byGrower = new Map<number, number[]>();
  let log = 0;
  for (const { grower, arms, events } of strata) {
    const term = conditionalTerm(arms, events, beta);
    const own = byGrower.get(grower) ?? new Array<number>(armCount).fill(0);
    byGrower.set(grower, own);
    log += term.log;
    term.arms.forEach((arm, i) => {
      score[arm]! += term.score[i]!;
      own[arm]! += term.score[i]!;
      term.arms.forEach((other, j) => {
        information[arm]![other]! += term.information[i]![j]!;
      });
    });
  }
  return { log, score, information, byGrower };
}

/** A Newton step, halved until the likelihood rises; it is concave, so that this always ends. */
function climb(
  strata: readonly BinaryOuting[],
  beta: readonly number[],
  step: readonly number[],
  log: number,
  armCount: number,
): number[] {
  for (let share = 1; share > 1e-6; share /= 2) {
    const next = beta.map((b, a) => b + share * step[a]!);
    if (evaluate(strata, next, armCount).log >= log) return next;
  }
  return [...beta];
}

function waldF(
  beta: readonly number[],
  covariance: SymmetricMatrix,
  growers: number,
): ConditionalLogistic["test"] {
  const { value, rank: q } = generalisedQuadraticForm(beta, covariance);
  if (growers <= q || q < beta.length - 1) return null;
  const statistic = (value * (growers - q)) / (q * (growers - 1));
  return { statistic, df1: q, df2: growers - q, p: fUpperTail(statistic, q, growers - q) };
}

function outerSum(vectors: readonly (readonly number[])[], size: number): number[][] {
  const sum = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (const u of vectors) {
    sum.forEach((row, a) => {
      for (let b = 0; b < size; b++) row[b]! += u[a]! * u[b]!;
    });
  }
  return sum;
}

function sandwich(bread: SymmetricMatrix, meat: SymmetricMatrix, scale: number): number[][] {
  const left = bread.map((row) => meat.map((column) => scale * dot(row, column)));
  return left.map((row) => bread.map((column) => dot(row, column)));
}

function multiply(matrix: SymmetricMatrix, x: readonly number[]): number[] {
  return matrix.map((row) => dot(row, x));
}

function dot(x: readonly number[], y: readonly number[]): number {
  return x.reduce((sum, xi, i) => sum + xi * y[i]!, 0);
}
