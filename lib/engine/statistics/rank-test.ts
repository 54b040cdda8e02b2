import type { PoolRank, PoolWarning } from "@/shared/schemas/pool";
import { chiSquareUpperTail } from "./distributions";
import { growerScoreTest } from "./grower-score-test";
import type { RankBlocks } from "./rank-blocks";
import type { PermutationOptions } from "./rank-permutation";
import { growerTotals, plainTotals } from "./rank-totals";
import { generalisedQuadraticForm } from "./symmetric";

/**
 * The ordinal line: do recipes differ in rank within outings?
 *
 * Scores are rank/(k + 1) within an outing's k measured boxes. With T_a = Σ (score − block mean) over the boxes
 * of arm a and S = Σ s²(diag n − nn′/k), s² the block's score variance with divisor k − 1 and n its boxes per
 * arm, χ² = T′S⁻T on rank S degrees of freedom: Friedman's, Durbin's and van Elteren's tests in one. It asks
 * whether there is no effect for any grower and takes outings as independent. `clustered` is the form with the
 * grower as the unit, the one to read. Outings with a single measured box are skipped and counted.
 *
 * `growersForF` is for scores rarer than growth, whose totals come near the normal later.
 * Over one band: `rankTest(blocksInBand(blocks, band), …)`. Time grows linearly with the boxes.
 */
export function rankTest(blocks: RankBlocks, options: PermutationOptions, growersForF?: number): PoolRank {
  const { arms, T, S } = plainTotals(blocks);
  const totals = growerTotals(blocks, arms);
  const outings = blocks.grower.length;
  const skippedOutings = blocks.skippedOutings.reduce((sum, skipped) => sum + skipped, 0);
  const warnings: PoolWarning[] = skippedOutings > 0 ? ["SINGLE_BOX_OUTINGS_SKIPPED"] : [];
  const result: PoolRank = {
    method: "BLOCK_STRATIFIED_ROW_MEAN_SCORES",
    boxes: blocks.arm.length,
    outings,
    growers: totals.growers,
    skippedOutings,
    chiSquare: null,
    df: null,
    p: null,
    clustered: growerScoreTest(totals, arms.length, options, growersForF),
    reason: null,
    warnings,
  };
  if (outings === 0) return { ...result, reason: "NO_BLOCKS" };
  if (arms.length === 1) return { ...result, reason: "ONE_ARM" };
  const { value: chiSquare, rank: df } = generalisedQuadraticForm(T, S);
  if (df === 0) return { ...result, reason: "NO_VARIATION" };
  if (df < arms.length - 1) warnings.push("ARMS_NOT_LINKED");
  return { ...result, chiSquare, df, p: chiSquareUpperTail(chiSquare, df) };
}
