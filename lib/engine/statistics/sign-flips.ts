import { seededSource } from "../random/source";
import type { PermutationOptions } from "./rank-permutation";
import { generalisedInverse, quadraticForm } from "./symmetric";

/**
 * Is the mean of vectors zero that are independent and, if it is, as likely as their opposites? `vectors` of `q` numbers
 * one after the other. Their signs are flipped at random, as a set of `permutations`: with S = T′(Σ x_g x_g′)⁻T of
 * their sum T, in which signs move T only, p = (1 + flips with an S at least as large) / (1 + flips). For scores this is
 * the wild bootstrap (Kline & Santos 2012, Journal of Econometric Methods 1:23–41).
 */
export function signFlipTest(
  vectors: Float64Array,
  q: number,
  { seed, permutations }: PermutationOptions,
): number {
  const { total, squares } = sumsOf(vectors, q);
  const inverse = generalisedInverse(squares);
  const observed = quadraticForm(inverse, total) * (1 - 1e-10);
  const source = seededSource(seed);
  const sum = new Float64Array(q);
  let asLarge = 0;
  for (let round = 0; round < permutations; round++) {
    sum.set(total);
    let bits = 0;
    for (let at = 0, g = 0; at < vectors.length; at += q, g++) {
      if (g % 32 === 0) bits = source.nextUint32();
      if ((bits & 1) === 1) for (let k = 0; k < q; k++) sum[k]! -= 2 * vectors[at + k]!;
      bits >>>= 1;
    }
    if (quadraticForm(inverse, sum) >= observed) asLarge++;
  }
  return (1 + asLarge) / (1 + permutations);
}

/** Σ x_g and Σ x_g x_g′ of vectors of `q` numbers, one after the other. */
export function sumsOf(
  vectors: Float64Array,
  q: number,
): { readonly total: Float64Array; readonly squares: number[][] } {
  const total = new Float64Array(q);
  const squares = Array.from({ length: q }, () => new Array<number>(q).fill(0));
  for (let at = 0; at < vectors.length; at += q) {
    for (let a = 0; a < q; a++) {
      const x = vectors[at + a]!;
      total[a]! += x;
      const row = squares[a]!;
      for (let b = 0; b < q; b++) row[b]! += x * vectors[at + b]!;
    }
  }
  return { total, squares };
}
