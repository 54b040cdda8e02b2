import { chiSquareUpperTail, normalQuantile, tUpperTail } from "./distributions";
import type { Difference } from "./tukey-kramer";

export interface CrossoverTest {
  readonly method: "GAIL_SIMON";
  /** The smaller of the two sums. */
  readonly statistic: number;
  /** Climate groups. */
  readonly groups: number;
  readonly p: number;
}

/**
 * Does the better of two recipes change between climate groups? The likelihood ratio test for qualitative interaction
 * (Gail & Simon 1985, Biometrics 41:361–372): with z_b = difference/se per group, Q⁻ = Σ z² over the groups with
 * z < 0 and Q⁺ = Σ z² over those with z > 0, the statistic is min(Q⁻, Q⁺) and
 * p = Σ_{h=1}^{K−1} C(K−1, h) 2^{−(K−1)} P(χ²(h) > statistic).
 *
 * Differences of different groups are taken as independent, which is not quite so where a grower has places in two
 * groups. A t with its df is first turned into the normal value of the same tail, so that few growers don't make
 * it eager. Null with fewer than two groups.
 */
export function crossoverTest(differences: readonly Difference[]): CrossoverTest | null {
  const groups = differences.length;
  if (groups < 2) return null;
  let [negative, positive] = [0, 0];
  for (const { difference, se, df } of differences) {
    const z2 = normalValue(difference / se, df) ** 2;
    if (difference < 0) negative += z2;
    else positive += z2;
  }
  const statistic = Math.min(negative, positive);
  return { method: "GAIL_SIMON", statistic, groups, p: crossoverTail(statistic, groups) };
}

/** P(min(Q⁻, Q⁺) > c) where the test is least favoured: one group far on one side, the others at zero. */
export function crossoverTail(c: number, groups: number): number {
  if (c <= 0) return 1;
  const n = groups - 1;
  let [p, ways] = [0, 1];
  for (let h = 1; h <= n; h++) {
    ways *= (n - h + 1) / h;
    p += ways * 2 ** -n * chiSquareUpperTail(c, h);
  }
  return p;
}

function normalValue(t: number, df: number): number {
  if (df === Infinity || t === 0) return t;
  const tail = tUpperTail(Math.abs(t), df);
  return tail > 0 ? Math.sign(t) * -normalQuantile(tail) : t;
}
