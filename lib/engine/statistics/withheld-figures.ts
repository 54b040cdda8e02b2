import type { PoolCounts, PoolDistribution, PoolMean, PoolRank, PoolShare } from "@/shared/schemas/pool";

// Figures as they stand where they are held back: no number in them, how many boxes they rest on included.

const withheldBase = { boxes: null, outings: null, growers: null, reason: "WITHHELD" } as const;
const noInterval = { df: null, lower: null, upper: null, warnings: [] };
export const withheldCounts = { ...withheldBase, lost: null, unmeasured: null } satisfies PoolCounts;
export const withheldData = {
  rows: null,
  analysed: null,
  lost: null,
  unmeasured: null,
  growers: null,
  outings: null,
  reason: "WITHHELD",
} as const;

export function withheldMean({ method }: PoolMean): PoolMean {
  return { method, ...withheldBase, ...noInterval, estimate: null, se: null };
}

export function withheldDistribution({ method }: PoolDistribution): PoolDistribution {
  return { method, ...withheldBase, classes: null, warnings: [] };
}

export function withheldShare({ method }: PoolShare): PoolShare {
  const figures = { count: null, share: null, designEffect: null, effectiveN: null };
  return { method, ...withheldBase, ...noInterval, ...figures };
}

export function withheldRank({ method, clustered }: PoolRank): PoolRank {
  const none = { p: null, growers: null, reason: "WITHHELD", warnings: [] } as const;
  return {
    method,
    ...withheldBase,
    skippedOutings: null,
    chiSquare: null,
    df: null,
    p: null,
    clustered: {
      method: clustered.method,
      statistic: null,
      df1: null,
      df2: null,
      permutations: null,
      seed: null,
      ...none,
      warnings: [],
    },
    warnings: [],
  };
}
