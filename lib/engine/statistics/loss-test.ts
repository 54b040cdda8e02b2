import type { PoolClusteredRank } from "@/shared/schemas/pool";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import type { PoolColumns } from "./columns";
import { rankBlocks } from "./rank-blocks";
import type { PermutationOptions } from "./rank-permutation";
import { rankTest } from "./rank-test";

/**
 * Losses are few, so that most growers' totals are 0 and the rest far out: with 20 to 60 growers Hotelling's F rejects a
 * true null in up to 7 % of trials by simulation, and labels are permuted instead.
 */
const GROWERS_FOR_F = 100;

/**
 * Do recipes lose boxes at different rates? The rank test clustered by grower, with "lost" as the outcome of every
 * drawn box: within an outing a lost box ranks above the others, so that the plain form is the generalised
 * Cochran–Mantel–Haenszel test by outing, weighted by the outing's size, and the clustered one allows for growers
 * who lose many boxes in all their outings and for growers whose animals like one recipe.
 */
export function lossTest(columns: PoolColumns, options: PermutationOptions): PoolAnalysis["lossTest"] {
  const blocks = rankBlocks({ ...columns, outcome: new Float64Array(columns.lost) });
  const test = rankTest(blocks, options, GROWERS_FOR_F);
  const { method, statistic, df1, df2, p, reason } = test.clustered;
  const { boxes, outings, growers } = test;
  return { method, boxes, outings, growers, statistic, df1, df2, p, reason: reasonOf(reason) };
}

/** No outing with two boxes is, for a reader, no boxes to compare. */
function reasonOf(reason: PoolClusteredRank["reason"]): PoolAnalysis["lossTest"]["reason"] {
  return reason === "NO_BLOCKS" ? "NO_BOXES" : reason;
}
