import type { BinaryOuting } from "./binary-outings";
import { maximiseConditional, type OutingPattern, patternKey, patternsOf } from "./conditional-fit";
import { conditionalTerm } from "./conditional-likelihood";
import { growerScoreTest } from "./grower-score-test";
import type { PermutationOptions } from "./rank-permutation";
import type { SymmetricMatrix } from "./symmetric";

export interface ConditionalLogistic {
  readonly method: "CONDITIONAL_LOGISTIC_BY_OUTING";
  /** Log odds of each arm relative to the mean over arms; null where `reason` stands. */
  readonly logOdds: readonly number[] | null;
  /** Covariance of `logOdds` over growers. Its contrasts are to be read with t(growers − 1). */
  readonly covariance: SymmetricMatrix | null;
  /** The same as if outings were independent: inverse information. */
  readonly modelCovariance: SymmetricMatrix | null;
  readonly logLikelihood: number | null;
  /** "All arms alike", by `growerScoreTest`: `df2` is null where it permutes. Has an answer also where SEPARATED. */
  readonly test: {
    readonly statistic: number;
    readonly df1: number;
    readonly df2: number | null;
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
 *
 * The test is the score test at equal odds, growers as the unit (Boos 1992, Am. Stat. 46:327–333). Wald's is too careful
 * with few growers (a true null is rejected in 2–3 % of trials of 10), as large estimates bring large variances with
 * them, and has no answer where an arm always wins.
 */
export function conditionalLogistic(
  outings: readonly BinaryOuting[],
  armCount: number,
  options: PermutationOptions,
): ConditionalLogistic {
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
  const { iterations } = maximum;
  if (!maximum.ok && maximum.reason === "NOT_LINKED")
    return { ...unanswered, iterations, reason: "NOT_LINKED" };
  const test = equalOdds(strata, patterns, armCount, options);
  if (!maximum.ok) return { ...unanswered, test, iterations, reason: maximum.reason };
  const { beta, inverse, log } = maximum;
  const meat = outerSum([...growerScores(strata, patterns, beta).values()], armCount);
  return {
    ...unanswered,
    logOdds: beta,
    covariance: sandwich(inverse, meat, growers / (growers - 1)),
    modelCovariance: inverse,
    logLikelihood: log,
    test,
    converged: true,
    iterations,
    reason: null,
  };
}

/** Every grower's score at the log odds `beta`, growers in the order of their numbers. */
function growerScores(
  strata: readonly BinaryOuting[],
  patterns: ReadonlyMap<string, OutingPattern>,
  beta: readonly number[],
): Map<number, number[]> {
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
  return new Map([...byGrower].sort(([a], [b]) => a - b));
}

function equalOdds(
  strata: readonly BinaryOuting[],
  patterns: ReadonlyMap<string, OutingPattern>,
  armCount: number,
  options: PermutationOptions,
): ConditionalLogistic["test"] {
  const had = new Map<number, Set<number>>();
  for (const { grower, arms } of strata) had.set(grower, new Set([...(had.get(grower) ?? []), ...arms]));
  const [start, arm, total] = [[0], [] as number[], [] as number[]];
  for (const [grower, score] of growerScores(strata, patterns, new Array<number>(armCount).fill(0))) {
    for (const own of [...had.get(grower)!].sort((a, b) => a - b)) {
      arm.push(own);
      total.push(score[own]!);
    }
    start.push(arm.length);
  }
  const totals = {
    growers: start.length - 1,
    start: Int32Array.from(start),
    arm: Int32Array.from(arm),
    total: Float64Array.from(total),
  };
  const { statistic, df1, df2, p } = growerScoreTest(totals, armCount, options);
  return p === null ? null : { statistic: statistic!, df1: df1!, df2, p };
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
