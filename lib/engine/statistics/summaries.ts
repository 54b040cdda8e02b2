import type { PoolArmSummary, PoolCounts, PoolDistribution } from "@/shared/schemas/pool";
import { growerMeanInterval, growerWarnings } from "./grower-means";
import type { GroupTally } from "./pool-tallies";
import { cleanTakeShare } from "./shares";

/** Everything said of one arm in one group of boxes (a climate band, a region, the whole trial). */
export function summariseArm(arm: string, tally: GroupTally, level: number): PoolArmSummary {
  return {
    arm,
    counts: countsOf(tally),
    mean: growerMeanInterval(tally, level),
    distribution: growthDistribution(tally),
    cleanTake: cleanTakeShare(tally, level),
  };
}

/** Boxes drawn, and what became of them. */
export function countsOf({ boxes, outings, growers, lost, unmeasured }: GroupTally): PoolCounts {
  return { boxes, outings, growers, lost, unmeasured, reason: null };
}

/** Boxes per growth class 0–4. Refused as NOT_A_GROWTH_CLASS when any outcome is not one of these. */
function growthDistribution({ measured, classes }: GroupTally): PoolDistribution {
  const { boxes, outings, growers } = measured;
  const base = { method: "COUNTS" as const, boxes, outings, growers, warnings: growerWarnings(growers) };
  if (boxes === 0) return { ...base, classes: null, reason: "NO_BOXES" };
  if (classes === null) return { ...base, classes, reason: "NOT_A_GROWTH_CLASS" };
  return { ...base, classes: [...classes], reason: null };
}
