import type { DrawHistory, DrawRule } from "@/lib/engine/design/draw";
import type { RandomSource } from "@/lib/engine/random/source";
import type { DrawInputs } from "@/shared/schemas/draw";
import { ARMS, blockDrawn } from "./draw-arrivals";

/** What a guesser has over somebody who only knows how many boxes and cookable arms there are. */
export interface GuessGain {
  /** Share of right yes or no for each cookable arm's presence, less that of always answering by the base rate. */
  readonly yesNo: number;
  /** How much oftener than the base rate the arm thought likeliest is in the block. */
  readonly likeliest: number;
}

/**
 * The gains of a guesser who knows the rule, every earlier draw and the outing's inputs, but not the secret: it runs
 * the rule many times with random numbers of its own and believes what comes out more often than not. Its guesses
 * come from one half of the runs and are judged by the other half, so that chance in the runs flatters nobody.
 */
export function guessGain(
  rule: DrawRule,
  inputs: DrawInputs,
  history: DrawHistory,
  random: RandomSource,
  runs: number,
): GuessGain {
  const arms = ARMS.flatMap(({ grain }, arm) => (inputs.grainsAtHand.includes(grain) ? [arm] : []));
  const believed = presence(rule, inputs, history, random, runs);
  const judged = presence(rule, inputs, history, random, runs);
  const baseRate = inputs.boxes / arms.length;
  const right = arms.reduce((sum, arm) => sum + (believed[arm]! > 0.5 ? judged[arm]! : 1 - judged[arm]!), 0);
  const likeliest = arms.reduce((best, arm) => (believed[arm]! > believed[best]! ? arm : best));
  return {
    yesNo: right / arms.length - Math.max(baseRate, 1 - baseRate),
    likeliest: judged[likeliest]! - baseRate,
  };
}

/** By arm: the share of runs of the rule in which the block holds it. */
function presence(
  rule: DrawRule,
  inputs: DrawInputs,
  history: DrawHistory,
  random: RandomSource,
  runs: number,
): number[] {
  const share = ARMS.map(() => 0);
  for (let run = 0; run < runs; run++) {
    for (const arm of blockDrawn(rule, inputs, random, history)) share[arm]! += 1 / runs;
  }
  return share;
}
