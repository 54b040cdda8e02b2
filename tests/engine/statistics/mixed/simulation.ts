import { tQuantile } from "@/lib/engine/statistics/distributions";
import { difference, jointTest } from "@/lib/engine/statistics/mixed/contrasts";
import { fitMixedModel } from "@/lib/engine/statistics/mixed/fit-mixed-model";
import {
  growerArmPosterior,
  predictedDifference,
  trueDifference,
} from "@/lib/engine/statistics/mixed/prediction";
import type { MixedEstimate, MixedOptions } from "@/lib/engine/statistics/mixed/types";
import { simulateTrial, type TrialTruth } from "./simulated-trial";

const LEVEL = 0.95;
const NEW_GROWERS = 20;

/** A share of simulated trials, with its Monte Carlo standard error. */
export interface SimulatedShare {
  readonly share: number;
  readonly error: number;
}

export interface MixedSimulation {
  /** Null trials in which the F test of all arms in group 0 has p < 5 %. */
  readonly rejected: SimulatedShare;
  /** 95 % intervals for the difference of the first two arms in group 0 that hold 0. */
  readonly covered: SimulatedShare;
  /** New growers whose set falls into the 95 % prediction, and whose true difference falls into its interval. */
  readonly predicted: SimulatedShare;
  readonly trueDifference: SimulatedShare;
  /** The share of fits that did not converge. */
  readonly failed: number;
}

/** Fits `runs` null trials of the kind given, by the whole model unless `options` say otherwise. */
export function simulateMixed(
  truth: TrialTruth,
  runs: number,
  seed: string,
  options?: MixedOptions,
): MixedSimulation {
  const shares = {
    rejected: new Tally(),
    covered: new Tally(),
    predicted: new Tally(),
    trueDifference: new Tally(),
  };
  let failed = 0;
  for (let run = 0; run < runs; run++) {
    const { columns, newGrower } = simulateTrial(
      truth,
      `${seed} ${truth.growers} ${truth.growerArmSd} ${run}`,
    );
    const result = fitMixedModel(columns, options);
    if (!result.ok || !result.fit.converged) {
      failed += 1;
      continue;
    }
    const { fit } = result;
    const [first, ...others] = fit.cells.filter(({ band }) => band === "b0").map(({ arm }) => arm);
    const joint = jointTest(
      fit,
      others.map((arm) => [
        { band: "b0", arm, weight: 1 },
        { band: "b0", arm: first!, weight: -1 },
      ]),
    );
    if (joint !== null) shares.rejected.add(Number(joint.p < 1 - LEVEL));
    const found = difference(fit, "b0", "a0", "a1");
    if (!found.estimable) continue;
    shares.covered.add(Number(holds(found, 0)));
    const oneSet = predictedDifference(fit, "b0", "a0", "a1");
    const posterior = growerArmPosterior(fit);
    const own = posterior && trueDifference(fit, posterior, "b0", "a0", "a1", LEVEL);
    let [inSet, inOwn] = [0, 0];
    for (let i = 0; i < NEW_GROWERS; i++) {
      const { observed, expected } = newGrower();
      inSet += Number(holds(oneSet, observed)) / NEW_GROWERS;
      if (own?.estimable) inOwn += Number(expected >= own.lower && expected <= own.upper) / NEW_GROWERS;
    }
    shares.predicted.add(inSet);
    if (own?.estimable) shares.trueDifference.add(inOwn);
  }
  return {
    rejected: shares.rejected.share(),
    covered: shares.covered.share(),
    predicted: shares.predicted.share(),
    trueDifference: shares.trueDifference.share(),
    failed: failed / runs,
  };
}

function holds(estimate: MixedEstimate, value: number): boolean {
  if (!estimate.estimable) return false;
  const half = tQuantile(1 - (1 - LEVEL) / 2, estimate.df) * estimate.se;
  return Math.abs(value - estimate.estimate) <= half;
}

class Tally {
  #n = 0;
  #sum = 0;
  #squares = 0;

  add(value: number): void {
    this.#n += 1;
    this.#sum += value;
    this.#squares += value * value;
  }

  share(): SimulatedShare {
    const mean = this.#sum / this.#n;
    return { share: mean, error: Math.sqrt(Math.max(0, this.#squares / this.#n - mean * mean) / this.#n) };
  }
}
