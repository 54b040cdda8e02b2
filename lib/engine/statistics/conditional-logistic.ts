import type { BinaryOuting } from "./binary-outings";
import { maximiseConditional, type OutingPattern, patternKey, patternsOf } from "./conditional-fit";
import { conditionalTerm } from "./conditional-likelihood";
import { fUpperTail } from "./distributions";
import { generalisedQuadraticForm, type SymmetricMatrix } from "./symmetric";

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
  const unanswered = {
    method: "CONDITIONAL_LOGISTIC_BY_OUTING" as const,
    logOdds: null,
    covariance: null,
    modelCovariance: null,
    logLikelihood: null,
    test: null,
    boxes: strata.reduce((sum, { arms }) => sum + arms.length, 0),
    outings: strata.length,
    growers,
    converged: false,
    iterations: 0,
  };
  if (strata.length === 0) return { ...unanswered, reason: "NO_VARIATION" };
  if (growers < MINIMUM_GROWERS) return { ...unanswered, reason: "TOO_FEW_GROWERS" };
  const patterns = patternsOf(strata);
  const maximum = maximiseConditional([...patterns.values()], armCount);
  if (!maximum.ok) return { ...unanswered, iterations: maximum.iterations, reason: maximum.reason };
  const { beta, inverse, log, iterations } = maximum;
  const meat = outerSum(growerScores(strata, patterns, beta), armCount);
  const covariance = sandwich(inverse, meat, growers / (growers - 1));
  return {
    ...unanswered,
    logOdds: beta,
    covariance,
    modelCovariance: inverse,
    logLikelihood: log,
    test: waldF(beta, covariance, growers),
    converged: true,
    iterations,
    reason: null,
  };
}

function growerScores(
  strata: readonly BinaryOuting[],
  patterns: ReadonlyMap<string, OutingPattern>,
  beta: readonly number[],
): number[][] {
  const terms = new Map(
    [...patterns].map(([key, { arms, events }]) => [key, conditionalTerm(arms, events, beta)]),
  );
  const byGrower = new Map<number, number[]>();
  for (const stratum of strata) {
    const own = byGrower.get(stratum.grower) ?? beta.map(() => 0);
    byGrower.set(stratum.grower, own);
    const { arms, score } = terms.get(patternKey(stratum))!;
    arms.forEach((arm, i) => {
      own[arm]! += score[i]!;
    });
  }
  return [...byGrower.values()];
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

function dot(x: readonly number[], y: readonly number[]): number {
  return x.reduce((sum, xi, i) => sum + xi * y[i]!, 0);
}
