import type { PoolClusteredRank, PoolRank, PoolRow, PoolWarning } from "@/shared/schemas/pool";
import { chiSquareUpperTail, fUpperTail } from "./distributions";
import { groupBy } from "./grouping";
import { countDistinct, growerWarnings } from "./grower-means";
import { type RankBlock, type RankBlocks, rankBlocks } from "./rank-blocks";
import { type GrowerTotals, type PermutationOptions, permutationTest } from "./rank-permutation";
import { generalisedQuadraticForm } from "./symmetric";

/** A test over growers says nothing about growers in general when there are fewer than this. */
const MINIMUM_GROWERS = 3;

/**
 * The ordinal line: do recipes differ in rank within outings?
 *
 * Scores are rank/(k + 1) within an outing's k measured boxes. With T_a = Σ (score − block mean) over the boxes
 * of arm a and S = Σ s²(diag n − nn′/k), s² the block's score variance with divisor k − 1 and n its boxes per
 * arm, χ² = T′S⁻T on rank S degrees of freedom: Friedman's, Durbin's and van Elteren's tests in one. It asks
 * whether there is no effect for any grower and takes outings as independent. `clustered` is the form with the
 * grower as the unit, the one to read. Outings with a single measured box are skipped and counted.
 */
export function rankTest(rows: readonly PoolRow[], options: PermutationOptions): PoolRank {
  const ranked = rankBlocks(rows);
  const { arms, blocks, skippedOutings } = ranked;
  const growers = countDistinct(blocks, (block) => block.grower);
  const warnings: PoolWarning[] = skippedOutings > 0 ? ["SINGLE_BOX_OUTINGS_SKIPPED"] : [];
  const result: PoolRank = {
    method: "BLOCK_STRATIFIED_ROW_MEAN_SCORES",
    boxes: blocks.reduce((sum, block) => sum + block.arms.length, 0),
    outings: blocks.length,
    growers,
    skippedOutings,
    chiSquare: null,
    df: null,
    p: null,
    clustered: clusteredRankTest(ranked, options),
    reason: null,
    warnings,
  };
  if (blocks.length === 0) return { ...result, reason: "NO_BLOCKS" };
  if (arms.length === 1) return { ...result, reason: "ONE_ARM" };
  const totals = armTotals(blocks, arms.length);
  const { value: chiSquare, rank: df } = generalisedQuadraticForm(
    totals,
    nullCovariance(blocks, arms.length),
  );
  if (df === 0) return { ...result, reason: "NO_VARIATION" };
  if (df < arms.length - 1) warnings.push("ARMS_NOT_LINKED");
  return { ...result, chiSquare, df, p: chiSquareUpperTail(chiSquare, df) };
}

/**
 * The same question with the grower as the unit: is the growers' mean score per arm zero?
 *
 * One-sample Hotelling T² on the growers' totals T_g with centred covariance C, q its rank, G growers:
 * T² = G T̄′C⁻T̄ and F = T²(G − q)/(q(G − 1)) on q and G − q. Below max(20, 3q) growers, or where T̄ leaves the
 * range of C (all growers agree exactly in some direction), arm labels are permuted within growers instead.
 */
function clusteredRankTest({ arms, blocks }: RankBlocks, options: PermutationOptions): PoolClusteredRank {
  const totals = growerTotals(blocks, arms.length);
  const growers = totals.length;
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
  if (blocks.length === 0) return { ...result, reason: "NO_BLOCKS" };
  if (arms.length === 1) return { ...result, reason: "ONE_ARM" };
  if (totals.every(({ total }) => total.every((x) => Math.abs(x) < 1e-12))) {
    return { ...result, reason: "NO_VARIATION" };
  }
  if (growers < MINIMUM_GROWERS) return { ...result, reason: "TOO_FEW_GROWERS" };
  const mean = arms.map((_, a) => totals.reduce((sum, { total }) => sum + total[a]!, 0) / growers);
  const { value, rank: q, inRange } = generalisedQuadraticForm(mean, centredCovariance(totals, mean));
  if (growers < Math.max(20, 3 * q) || !inRange) {
    const { statistic, df, p } = permutationTest(totals, arms.length, options);
    const { seed, permutations } = options;
    return { ...result, method: "PERMUTATION_WITHIN_GROWERS", statistic, df1: df, p, permutations, seed };
  }
  const statistic = (growers * value * (growers - q)) / (q * (growers - 1));
  return { ...result, statistic, df1: q, df2: growers - q, p: fUpperTail(statistic, q, growers - q) };
}

function armTotals(blocks: readonly RankBlock[], armCount: number): number[] {
  const totals = new Array<number>(armCount).fill(0);
  for (const { arms, scores } of blocks) {
    arms.forEach((arm, i) => {
      totals[arm]! += scores[i]!;
    });
  }
  return totals;
}

/** S of the plain form. */
function nullCovariance(blocks: readonly RankBlock[], armCount: number): number[][] {
  const S = Array.from({ length: armCount }, () => new Array<number>(armCount).fill(0));
  for (const { arms, scores } of blocks) {
    const k = scores.length;
    const variance = scores.reduce((sum, score) => sum + score * score, 0) / (k - 1);
    for (const a of arms) {
      S[a]![a]! += variance;
      for (const b of arms) S[a]![b]! -= variance / k;
    }
  }
  return S;
}

function growerTotals(blocks: readonly RankBlock[], armCount: number): GrowerTotals[] {
  return [...groupBy(blocks, (block) => block.grower).values()].map((own) => ({
    arms: [...new Set(own.flatMap((block) => block.arms))].sort((a, b) => a - b),
    total: armTotals(own, armCount),
  }));
}

function centredCovariance(totals: readonly GrowerTotals[], mean: readonly number[]): number[][] {
  return mean.map((meanA, a) =>
    mean.map(
      (meanB, b) =>
        totals.reduce((sum, { total }) => sum + (total[a]! - meanA) * (total[b]! - meanB), 0) /
        (totals.length - 1),
    ),
  );
}
