import type { PlannerRequest } from "@/shared/schemas/planner";
import type { SimulatedChance } from "@/shared/schemas/planner-result";
import type { RandomSource } from "../../random/source";
import { normalQuantile, tQuantile } from "../../statistics/distributions";
import { clusteredFit } from "./clustered-fit";
import type { PairVariances, SetOfArms } from "./information";
import { differencePower } from "./power";

export interface Arrivals {
  /** At least two growers, whose sets join all arms. */
  readonly setsByGrower: readonly (readonly SetOfArms[])[];
  readonly arms: number;
  /** Of these sets' information per unit of residual variance, grower × arm left out. */
  readonly pairs: PairVariances;
  readonly deviations: PlannerRequest["deviations"];
  /** Of mean growth. */
  readonly difference: number;
  readonly cleanTake: PlannerRequest["cleanTake"];
  readonly alpha: number;
  readonly runs: number;
}

export interface SimulatedPower extends SimulatedChance {
  /** Mean squared error of the estimated difference over the runs. */
  readonly variance: number;
}

/** What simulation gave for a design; null where none was made. */
export interface Simulated {
  readonly growth: SimulatedPower | null;
  readonly cleanTake: SimulatedPower | null;
}

/**
 * Simulates trials: normal deviations of growers, grower × arm, sets and boxes; one arm of the typical pair is better
 * by the difference, all others are like its rival. Clean take is a threshold on the same deviations, placed so that
 * over all growers and boxes the stated shares come out. Each trial is judged by `clusteredFit`.
 */
export function simulateArrivals(arrivals: Arrivals, random: RandomSource): Simulated {
  const { setsByGrower, arms, pairs, difference, cleanTake, alpha, runs } = arrivals;
  const judge = clusteredFit(setsByGrower, arms, pairs);
  const critical = tQuantile(1 - alpha / 2, judge.df);
  const growth = counter(difference, critical);
  const clean = counter(cleanTake?.difference ?? 0, critical);
  const trial = trialDrawer(arrivals, normalSource(random));
  for (let run = 0; run < runs; run++) {
    const outcomes = trial();
    growth.add(judge.fit(outcomes.growth));
    if (cleanTake !== null) clean.add(judge.fit(outcomes.cleanTake));
  }
  return { growth: growth.result(), cleanTake: cleanTake === null ? null : clean.result() };
}

function counter(truth: number, critical: number) {
  let runs = 0;
  let rejected = 0;
  let squares = 0;
  return {
    add: ({ estimate, se }: { readonly estimate: number; readonly se: number }) => {
      runs += 1;
      if (Math.abs(estimate) > critical * se) rejected += 1;
      squares += (estimate - truth) ** 2;
    },
    result: (): SimulatedPower => {
      const power = rejected / runs;
      return { power, monteCarloError: shareError(power, runs), runs, variance: squares / runs };
    },
  };
}

/** Standard error of a simulated share; where all runs agree, as if one didn't. */
function shareError(share: number, runs: number): number {
  const inside = Math.min(1 - 1 / runs, Math.max(1 / runs, share));
  return Math.sqrt((inside * (1 - inside)) / runs);
}

/**
 * The chance by a simulated `variance` at another number of growers, with the Monte Carlo error that the variance's own
 * (relatively √(2/runs)) makes in it.
 */
export function carriedPower(
  { runs }: SimulatedChance,
  difference: number,
  variance: number,
  df: number,
  alpha: number,
): SimulatedChance {
  const power = differencePower(difference, variance, df, alpha);
  const off = differencePower(difference, variance * (1 + Math.sqrt(2 / runs)), df, alpha);
  return { power, monteCarloError: Math.abs(off - power), runs };
}

/** Outcomes of all boxes, grower after grower, set after set; each call overwrites those of the last. */
interface TrialOutcomes {
  readonly growth: Float64Array;
  readonly cleanTake: Float64Array;
}

function trialDrawer(arrivals: Arrivals, normal: () => number): () => TrialOutcomes {
  const { setsByGrower, arms, pairs, deviations, difference, cleanTake } = arrivals;
  const { grower, growerArm, outing, residual } = deviations;
  const boxes = setsByGrower.flat(2).length;
  const outcomes = { growth: new Float64Array(boxes), cleanTake: new Float64Array(boxes) };
  const total = Math.hypot(grower, growerArm, outing, residual);
  const base = cleanTake === null ? 0 : total * normalQuantile(cleanTake.baseShare);
  const raised = cleanTake === null ? 0 : total * normalQuantile(cleanTake.baseShare + cleanTake.difference);
  const better = pairs.typicalPair[0];
  const liking = new Float64Array(arms);
  return () => {
    let box = 0;
    for (const sets of setsByGrower) {
      liking.fill(Number.NaN);
      const ofGrower = grower * normal();
      for (const set of sets) {
        const ofSet = ofGrower + outing * normal();
        for (const arm of set) {
          if (Number.isNaN(liking[arm])) liking[arm] = growerArm * normal();
          const deviation = ofSet + liking[arm]! + residual * normal();
          outcomes.growth[box] = deviation + (arm === better ? difference : 0);
          outcomes.cleanTake[box] = deviation + (arm === better ? raised : base) > 0 ? 1 : 0;
          box += 1;
        }
      }
    }
    return outcomes;
  };
}

/**
 * Standard normal numbers by the polar method (Knuth, The Art of Computer Programming 2, 3.4.1, algorithm P) from
 * numbers of 32 bits, which reach 6.6 standard deviations.
 */
function normalSource(random: RandomSource): () => number {
  let spare = Number.NaN;
  const signed = () => (random.nextUint32() + 0.5) / 2 ** 31 - 1;
  return () => {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    for (;;) {
      const x = signed();
      const y = signed();
      const s = x * x + y * y;
      if (s >= 1) continue;
      const factor = Math.sqrt((-2 * Math.log(s)) / s);
      spare = y * factor;
      return x * factor;
    }
  };
}
