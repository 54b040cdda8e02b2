import type { InterimLook, PoolRank, PoolResult } from "@/shared/schemas/pool";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";

/**
 * A result as an open trial may show it: with intervals at the look's level, which the result must have been made
 * at, and neither p nor verdict nor anything of who is best.
 */
export function interimResult(result: PoolResult, interim: InterimLook): PoolResult {
  return {
    ...result,
    interim,
    analysis: result.analysis && interimAnalysis(result.analysis),
    rank: withoutTest(result.rank),
    rankByBand: result.rankByBand.map(({ band, ...rank }) => ({ band, ...withoutTest(rank) })),
  };
}

function withoutTest(rank: PoolRank): PoolRank {
  const none = { statistic: null, df1: null, df2: null, p: null };
  return {
    ...rank,
    chiSquare: null,
    df: null,
    p: null,
    clustered: { ...rank.clustered, ...none, reason: "INTERIM" },
    reason: "INTERIM",
  };
}

function interimAnalysis(analysis: PoolAnalysis): PoolAnalysis {
  const noTest = { statistic: null, df1: null, df2: null, p: null, reason: "INTERIM" } as const;
  return {
    ...analysis,
    cells: analysis.cells.map((cell) => ({ ...cell, chanceBest: null, chanceBestNextSet: null })),
    contrasts: analysis.contrasts.map((one) => ({ ...one, p: null, verdict: null })),
    best: analysis.best.map((one) => ({
      ...one,
      difference: null,
      lower: null,
      upper: null,
      mayBeBest: null,
      monteCarloError: null,
      reason: "INTERIM",
    })),
    againstReference: analysis.againstReference.map((one) => ({ ...one, p: null, verdict: null })),
    interaction: {
      ...analysis.interaction,
      ...noTest,
      crossover: [],
      cumulativeLogit: { chiSquare: null, df: null, p: null, reason: "INTERIM" },
    },
    factors: analysis.factors.map((one) => ({ ...one, p: null })),
    moisture: analysis.moisture.map((one) => ({ ...one, slope: { ...one.slope, p: null } })),
    clean: analysis.clean.map((one) => ({ ...one, p: null })),
    cleanTests: analysis.cleanTests.map((one) => ({ ...one, ...noTest })),
    lossTest: { ...analysis.lossTest, ...noTest },
    seasons: analysis.seasons && { ...analysis.seasons, ...noTest },
    warmth: analysis.warmth && { ...analysis.warmth, ...noTest },
    usable: analysis.usable && {
      ...analysis.usable,
      contrasts: analysis.usable.contrasts.map((one) => ({ ...one, p: null })),
    },
    growers: [],
  };
}
