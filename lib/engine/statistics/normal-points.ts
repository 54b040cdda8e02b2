import type { RandomSource } from "../random/source";
import { normalQuantile } from "./distributions";

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
  const values = new Float64Array(REPLICATES * PAIRS_PER_REPLICATE * dimension);
  const steps = firstPrimes(dimension).map((prime) => Math.sqrt(prime) % 1);
  let at = 0;
  for (let set = 0; set < REPLICATES; set++) {
    const shifts = steps.map(() => source.unit());
    for (let i = 1; i <= PAIRS_PER_REPLICATE; i++) {
      for (let j = 0; j < dimension; j++) {
        const u = (i * steps[j]! + shifts[j]!) % 1;
        values[at++] = normalQuantile(Math.min(Math.max(u, 1e-16), 1 - 1e-16));
      }
    }
  }
  return { dimension, replicates: REPLICATES, pairsPerReplicate: PAIRS_PER_REPLICATE, values };
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
