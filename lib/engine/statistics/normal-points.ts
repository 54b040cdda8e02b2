import type { RandomSource } from "../random/source";
import { quickNormalQuantile } from "./quick-normal";

/**
 * Standard normal vectors spread evenly: `replicates` independent sets of `pairsPerReplicate` vectors each, with each
 * vector its opposite, which isn't stored. The first so many numbers of all vectors are such points too.
 */
export interface NormalPoints {
  readonly dimension: number;
  readonly replicates: number;
  readonly pairsPerReplicate: number;
  /** Vector after vector, set after set. */
  readonly values: Float64Array;
}

const REPLICATES = 8;
const PAIRS_PER_REPLICATE = 1024;

/**
 * Quasi-random standard normals: Richtmyer's lattice, fractional parts of i√(prime) (as in Genz & Bretz 2009,
 * Computation of Multivariate Normal and t Probabilities, §4.2.2), each set moved by a random shift of its own. The
 * spread of a figure over the sets is its Monte Carlo error. 16,384 vectors of `dimension` ≥ 1 numbers, opposites
 * included; `source` decides the shifts.
 */
export function normalPoints(dimension: number, source: RandomSource): NormalPoints {
  const perSet = PAIRS_PER_REPLICATE * dimension;
  const values = new Float64Array(REPLICATES * perSet);
  const steps = Float64Array.from(firstPrimes(dimension), (prime) => Math.sqrt(prime) % 1);
  for (let set = 0; set < REPLICATES; set++) {
    const shifts = steps.map(() => source.unit());
    fillLattice(values.subarray(set * perSet, (set + 1) * perSet), steps, shifts);
  }
  return { dimension, replicates: REPLICATES, pairsPerReplicate: PAIRS_PER_REPLICATE, values };
}

function fillLattice(values: Float64Array, steps: Float64Array, shifts: Float64Array): void {
  for (let i = 1, at = 0; at < values.length; i++) {
    for (let j = 0; j < steps.length; j++, at++) {
      const along = i * steps[j]! + shifts[j]!;
      values[at] = quickNormalQuantile(along - Math.floor(along));
    }
  }
}

/** Mean of the sets' figures and its standard error over the sets. */
export function overReplicates(figures: readonly number[]): { value: number; monteCarloError: number } {
  const n = figures.length;
  const value = figures.reduce((sum, x) => sum + x, 0) / n;
  const squares = figures.reduce((sum, x) => sum + (x - value) ** 2, 0);
  return { value, monteCarloError: Math.sqrt(squares / (n - 1) / n) };
}

function firstPrimes(count: number): number[] {
  const primes: number[] = [];
  for (let n = 2; primes.length < count; n++) if (primes.every((prime) => n % prime !== 0)) primes.push(n);
  return primes;
}
