import type { RandomSource } from "../random/source";
import { normalQuantile } from "./distributions";

/** Standard normal vectors spread evenly: `replicates` independent sets of `perReplicate` vectors each. */
export interface NormalPoints {
  readonly dimension: number;
  readonly replicates: number;
  readonly perReplicate: number;
  /** Vector after vector, set after set. */
  readonly values: Float64Array;
}

const REPLICATES = 8;
const PAIRS_PER_REPLICATE = 1024;

/**
 * Quasi-random standard normals: Richtmyer's lattice, fractional parts of i√(prime) (as in Genz & Bretz 2009,
 * Computation of Multivariate Normal and t Probabilities, §4.2.2), each set moved by a random shift of its own, and
 * each vector followed by its opposite. The spread of a figure over the sets is its Monte Carlo error.
 * 16,384 vectors of `dimension` ≥ 1 numbers; `source` decides the shifts.
 */
export function normalPoints(dimension: number, source: RandomSource): NormalPoints {
  const perReplicate = 2 * PAIRS_PER_REPLICATE;
  const values = new Float64Array(REPLICATES * perReplicate * dimension);
  const steps = firstPrimes(dimension).map((prime) => Math.sqrt(prime) % 1);
  let at = 0;
  for (let set = 0; set < REPLICATES; set++) {
    const shifts = steps.map(() => source.unit());
    for (let i = 1; i <= PAIRS_PER_REPLICATE; i++) {
      for (let j = 0; j < dimension; j++) {
        const u = (i * steps[j]! + shifts[j]!) % 1;
        const z = normalQuantile(Math.min(Math.max(u, 1e-16), 1 - 1e-16));
        values[at + j] = z;
        values[at + dimension + j] = -z;
      }
      at += 2 * dimension;
    }
  }
  return { dimension, replicates: REPLICATES, perReplicate, values };
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
