import { simulateMixed } from "@/tests/engine/statistics/mixed/simulation";
import type { SimulatedTrial } from "@/tests/engine/statistics/simulated-trial";
import type { Chunk } from "./tally";

/** How much lower growth lies, on the latent scale, where the last arm's grain is not to be had. */
const POORER = 0.6;

/** Sums over null trials in which a third of the growers lack the last arm and have poorer places. */
export function poorerPlaces(
  { growers, arms, growerArmSd }: SimulatedTrial,
  runs: number,
  seed: string,
): Chunk["figures"] {
  const found = simulateMixed({ growers, arms, growerArmSd, poorerWithoutLast: POORER }, runs, seed);
  const fitted = runs * (1 - found.failed);
  const sums = ({ share, error }: { readonly share: number; readonly error: number }) =>
    [fitted, fitted * share, fitted * (fitted * error ** 2 + share ** 2)] as [number, number, number];
  return {
    converged: [runs, fitted, fitted],
    joint: sums(found.rejected),
    pairLargest: sums(found.covered),
    nextSet: sums(found.predicted),
    trueDifference: sums(found.trueDifference),
  };
}
