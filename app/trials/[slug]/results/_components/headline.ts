import { decimal } from "@/lib/ui/format";
import { trialMessages } from "@/lib/ui/messages/en/trials";
import type { StoredPlan } from "@/shared/schemas/plan";
import type { PoolArmSummary, PoolRank } from "@/shared/schemas/pool";

const ALPHA = 0.05;

/** Whether a cell holds what the plan asks for before its recipe may be named. */
export function meetsMinimum({ mean }: PoolArmSummary, minimum: StoredPlan["minimum"]): boolean {
  return (mean.boxes ?? 0) >= minimum.boxesPerCell && (mean.growers ?? 0) >= minimum.growersPerCell;
}

/**
 * One plain sentence on a group: which recipe grew most, and whether that is more than chance would do. Only
 * recipes with what the plan asks for are named.
 */
export function headline(
  summaries: readonly PoolArmSummary[],
  rank: PoolRank,
  nameOf: (arm: string) => string,
  minimum: StoredPlan["minimum"],
): string {
  const words = trialMessages.says;
  const comparable = summaries
    .flatMap((summary) =>
      summary.mean.estimate !== null && meetsMinimum(summary, minimum)
        ? [{ name: nameOf(summary.arm), mean: summary.mean.estimate }]
        : [],
    )
    .sort((a, b) => b.mean - a.mean);
  const [first] = comparable;
  if (!first) return words.nothing;
  const mean = decimal(first.mean, 1);
  if (comparable.length === 1) return words.one(first.name, mean);
  const { p } = rank.clustered;
  if (p === null) return words.untested(first.name, mean);
  return p < ALPHA ? words.differ(first.name, mean, comparable.length) : words.unsure(first.name, mean);
}
