import type { BinaryOuting } from "./binary-outings";
import { conditionalTerm } from "./conditional-likelihood";
import { generalisedInverse, generalisedQuadraticForm } from "./symmetric";

const MAX_ITERATIONS = 40;
/** The search ends when a Newton step promises less than this in log-likelihood. */
const CONVERGED_DECREMENT = 1e-12;
/** A sum of logarithms is good to this share of itself. */
const LOG_ROUNDING = 1e-12;
/** Odds of e^12 within an outing are no estimate any more. */
const SEPARATED_BEYOND = 12;

/** Outings alike in arms and events; a large trial has far fewer patterns than outings. */
export interface OutingPattern {
  readonly arms: readonly number[];
  readonly events: readonly number[];
  outings: number;
}

/** The patterns by {@link patternKey}. */
export function patternsOf(strata: readonly BinaryOuting[]): Map<string, OutingPattern> {
  const patterns = new Map<string, OutingPattern>();
  for (const { arms, events } of strata) {
    const key = patternKey({ arms, events });
    const known = patterns.get(key);
    if (known) known.outings += 1;
    else patterns.set(key, { arms, events, outings: 1 });
  }
  return patterns;
}

/** The boxes in order, so that two outings with the same boxes share a key. */
export function patternKey({ arms, events }: Pick<BinaryOuting, "arms" | "events">): string {
  return arms
    .map((arm, i) => 2 * arm + events[i]!)
    .sort((a, b) => a - b)
    .join();
}

export type ConditionalMaximum =
  | {
      readonly ok: true;
      readonly beta: number[];
      readonly inverse: number[][];
      readonly log: number;
      readonly iterations: number;
    }
  | { readonly ok: false; readonly reason: "NOT_LINKED" | "SEPARATED"; readonly iterations: number };

/**
 * The β with the largest conditional likelihood, summing to 0 over `armCount` arms, by Newton steps; `inverse` is
 * the (generalised) inverse of the information there, `log` the log-likelihood.
 */
export function maximiseConditional(
  patterns: readonly OutingPattern[],
  armCount: number,
): ConditionalMaximum {
  let beta = new Array<number>(armCount).fill(0);
  for (let iterations = 1; iterations <= MAX_ITERATIONS; iterations++) {
    const { log, score, information } = evaluate(patterns, beta);
    const { value: decrement, rank } = generalisedQuadraticForm(score, information);
    if (iterations === 1 && rank < armCount - 1) return { ok: false, reason: "NOT_LINKED", iterations };
    const inverse = generalisedInverse(information);
    if (decrement < CONVERGED_DECREMENT) return { ok: true, beta, inverse, log, iterations };
    beta = climb(
      patterns,
      beta,
      inverse.map((row) => dot(row, score)),
      log,
    );
    if (Math.max(...beta) - Math.min(...beta) > SEPARATED_BEYOND)
      return { ok: false, reason: "SEPARATED", iterations };
  }
  return { ok: false, reason: "SEPARATED", iterations: MAX_ITERATIONS };
}

function evaluate(patterns: readonly OutingPattern[], beta: readonly number[]) {
  const score = beta.map(() => 0);
  const information = beta.map(() => beta.map(() => 0));
  let log = 0;
  for (const { arms, events, outings } of patterns) {
    const term = conditionalTerm(arms, events, beta);
    log += outings * term.log;
    term.arms.forEach((arm, i) => {
      score[arm]! += outings * term.score[i]!;
      term.arms.forEach((other, j) => {
        information[arm]![other]! += outings * term.information[i]![j]!;
      });
    });
  }
  return { log, score, information };
}

/** A Newton step, halved until the likelihood rises; it is concave, so that this always ends. */
function climb(
  patterns: readonly OutingPattern[],
  beta: readonly number[],
  step: readonly number[],
  log: number,
): number[] {
  for (let share = 1; share > 1e-6; share /= 2) {
    const next = beta.map((b, a) => b + share * step[a]!);
    if (evaluate(patterns, next).log >= log - LOG_ROUNDING * Math.abs(log)) return next;
  }
  return [...beta];
}

function dot(x: readonly number[], y: readonly number[]): number {
  return x.reduce((sum, xi, i) => sum + xi * y[i]!, 0);
}
