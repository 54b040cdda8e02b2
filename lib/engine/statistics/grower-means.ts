import type { PoolMean, PoolWarning } from "@/shared/schemas/pool";
import { tQuantile } from "./distributions";
import type { GroupTally } from "./pool-tallies";

/** Coverage and size are measured by simulation from ten growers up; below, a figure carries a warning. */
export const FEW_GROWERS = 10;

/**
 * The mean over growers' own means, with a t interval over growers at `level`.
 *
 * The grower (household) is the unit: a grower's boxes share a place, a hand and a season, so that intervals over
 * boxes promise more than they keep. Each grower's boxes are averaged first; the grower means are taken as
 * G independent values: estimate ± t(1 − (1 − level)/2, G − 1) · s/√G. A grower with many boxes counts as one.
 *
 * One grower: no interval (TOO_FEW_GROWERS). All grower means equal: no interval either (NO_VARIATION), as one of
 * width 0 would claim certainty.
 */
export function growerMeanInterval({ measured }: Pick<GroupTally, "measured">, level: number): PoolMean {
  const { boxes, outings, growers, mean: estimate, squares } = measured;
  const result: PoolMean = {
    method: "T_OVER_GROWER_MEANS",
    boxes,
    outings,
    growers,
    estimate: null,
    se: null,
    df: null,
    lower: null,
    upper: null,
    reason: null,
    warnings: growerWarnings(growers),
  };
  if (growers === 0) return { ...result, reason: "NO_BOXES" };
  if (growers === 1) return { ...result, estimate, reason: "TOO_FEW_GROWERS" };
  const df = growers - 1;
  const se = Math.sqrt(squares / df / growers);
  if (se <= 1e-12 * Math.abs(estimate)) return { ...result, estimate, se: 0, df, reason: "NO_VARIATION" };
  const half = tQuantile(1 - (1 - level) / 2, df) * se;
  return { ...result, estimate, se, df, lower: estimate - half, upper: estimate + half };
}

/** The warning that a figure rests on fewer growers than its behaviour was measured for. */
export function growerWarnings(growers: number): PoolWarning[] {
  return growers < FEW_GROWERS ? ["FEW_GROWERS"] : [];
}
