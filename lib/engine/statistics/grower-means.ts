import type { PoolMean, PoolRow, PoolWarning } from "@/shared/schemas/pool";
import { tQuantile } from "./distributions";
import { groupBy } from "./grouping";

/** Coverage and size are measured by simulation from ten growers up; below, a figure carries a warning. */
export const FEW_GROWERS = 10;

/**
 * The mean over growers' own means, with a t interval over growers at `level`.
 *
 * The grower (household) is the unit: a grower's boxes share a place, a hand and a season, so that intervals over
 * boxes promise more than they keep. Each grower's boxes are averaged first; the grower means are taken as
 * G independent values: estimate ± t(1 − (1 − level)/2, G − 1) · s/√G. A grower with many boxes counts as one.
 *
 * `rows` are those of the group; only graded ones with an outcome are used. One grower: no interval
 * (TOO_FEW_GROWERS). All grower means equal: no interval either (NO_VARIATION), as one of width 0 would claim
 * certainty.
 */
export function growerMeanInterval(rows: readonly PoolRow[], level: number): PoolMean {
  const measured = rows.filter(isAnalysed);
  const means = [...groupBy(measured, (row) => row.grower).values()].map((own) =>
    average(own.map((row) => row.outcome)),
  );
  const growers = means.length;
  const result: PoolMean = {
    method: "T_OVER_GROWER_MEANS",
    boxes: measured.length,
    outings: countDistinct(measured, (row) => row.outing),
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
  const estimate = average(means);
  if (growers === 1) return { ...result, estimate, reason: "TOO_FEW_GROWERS" };
  const df = growers - 1;
  const squares = means.reduce((sum, mean) => sum + (mean - estimate) ** 2, 0);
  const se = Math.sqrt(squares / df / growers);
  if (se <= 1e-12 * Math.abs(estimate) || se === 0) {
    return { ...result, estimate, se: 0, df, reason: "NO_VARIATION" };
  }
  const half = tQuantile(1 - (1 - level) / 2, df) * se;
  return { ...result, estimate, se, df, lower: estimate - half, upper: estimate + half };
}

/** A graded box with its outcome measured: what means, distributions and the rank test are made of. */
export function isAnalysed(row: PoolRow): row is PoolRow & { readonly outcome: number } {
  return row.status === "graded" && row.outcome !== null;
}

/** The warning that a figure rests on fewer growers than its behaviour was measured for. */
export function growerWarnings(growers: number): PoolWarning[] {
  return growers < FEW_GROWERS ? ["FEW_GROWERS"] : [];
}

/** How many different keys the items have. */
export function countDistinct<T>(items: readonly T[], keyOf: (item: T) => string): number {
  return new Set(items.map(keyOf)).size;
}

function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
