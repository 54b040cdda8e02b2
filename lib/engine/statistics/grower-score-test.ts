import type { PoolClusteredRank } from "@/shared/schemas/pool";
import { fUpperTail } from "./distributions";
import { growerWarnings } from "./grower-means";
import { type PermutationOptions, permutationTest } from "./rank-permutation";
import type { GrowerTotals } from "./rank-totals";
import { generalisedQuadraticForm } from "./symmetric";

/** A test over growers says nothing about growers in general when there are fewer than this. */
const MINIMUM_GROWERS = 3;
/** Growers from which their score totals are near enough to normal for Hotelling's F, growth 0–4 being scored. */
const GROWERS_FOR_F = 20;

/**
 * Is the growers' mean score per arm zero?
 *
 * One-sample Hotelling T² on the growers' totals T_g with centred covariance C, q its rank, G growers:
 * T² = G T̄′C⁻T̄ and F = T²(G − q)/(q(G − 1)) on q and G − q. Below max(`growersForF`, 3q) growers, or where T̄ leaves the
 * range of C (all growers agree exactly in some direction), arm labels are permuted within growers instead.
 */
export function growerScoreTest(
  totals: GrowerTotals,
  armCount: number,
  options: PermutationOptions,
  growersForF = GROWERS_FOR_F,
): PoolClusteredRank {
  const { growers } = totals;
  const result: PoolClusteredRank = {
    method: "HOTELLING_F",
    statistic: null,
    df1: null,
    df2: null,
    p: null,
    growers,
    permutations: null,
    seed: null,
    reason: null,
    warnings: growerWarnings(growers),
  };
  if (growers === 0) return { ...result, reason: "NO_BLOCKS" };
  if (armCount === 1) return { ...result, reason: "ONE_ARM" };
  if (totals.total.every((x) => Math.abs(x) < 1e-12)) return { ...result, reason: "NO_VARIATION" };
  if (growers < MINIMUM_GROWERS) return { ...result, reason: "TOO_FEW_GROWERS" };
  const mean = meanTotal(totals, armCount);
  const { value, rank: q, inRange } = generalisedQuadraticForm(mean, centredCovariance(totals, mean));
  if (growers < Math.max(growersForF, 3 * q) || !inRange) {
    const { statistic, df, p } = permutationTest(totals, armCount, options);
    const { seed, permutations } = options;
    return { ...result, method: "PERMUTATION_WITHIN_GROWERS", statistic, df1: df, p, permutations, seed };
  }
  const statistic = (growers * value * (growers - q)) / (q * (growers - 1));
  return { ...result, statistic, df1: q, df2: growers - q, p: fUpperTail(statistic, q, growers - q) };
}

function meanTotal({ growers, arm, total }: GrowerTotals, armCount: number): number[] {
  const mean = new Array<number>(armCount).fill(0);
  total.forEach((x, i) => {
    mean[arm[i]!]! += x / growers;
  });
  return mean;
}

/** Growers that agree to rounding differ by nothing: what is left of a difference there is no direction to test. */
const RELATIVE_ROUNDING = 1e-13;

function centredCovariance(
  { growers, start, arm, total }: GrowerTotals,
  mean: readonly number[],
): number[][] {
  const size = mean.length;
  const sums = new Float64Array(size * size);
  const difference = new Float64Array(size);
  const largest = total.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
  for (let g = 0; g < growers; g++) {
    for (let a = 0; a < size; a++) difference[a] = -mean[a]!;
    for (let i = start[g]!; i < start[g + 1]!; i++) difference[arm[i]!]! += total[i]!;
    for (let a = 0; a < size; a++) {
      const x = Math.abs(difference[a]!) <= RELATIVE_ROUNDING * largest ? 0 : difference[a]!;
      difference[a] = x;
      for (let b = 0; b <= a; b++) sums[a * size + b]! += x * difference[b]!;
    }
  }
  return mean.map((_, a) =>
    mean.map((__, b) => sums[Math.max(a, b) * size + Math.min(a, b)]! / (growers - 1)),
  );
}
