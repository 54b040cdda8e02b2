import type {
  PoolArmSummary,
  PoolCounts,
  PoolDistribution,
  PoolRow,
  PoolWarning,
} from "@/shared/schemas/pool";
import { countDistinct, growerMeanInterval, growerWarnings, isAnalysed } from "./grower-means";
import { cleanTakeShare } from "./shares";

/** Everything said of one arm in one group of rows (a climate band, a region, the whole trial). */
export function summariseArm(arm: string, rows: readonly PoolRow[], level: number): PoolArmSummary {
  return {
    arm,
    counts: countRows(rows),
    mean: growerMeanInterval(rows, level),
    distribution: growthDistribution(rows),
    cleanTake: cleanTakeShare(rows, level),
  };
}

/** Boxes drawn, and what became of them. */
export function countRows(rows: readonly PoolRow[]): PoolCounts {
  return {
    boxes: rows.length,
    outings: countDistinct(rows, (row) => row.outing),
    growers: countDistinct(rows, (row) => row.grower),
    lost: rows.filter((row) => row.status === "lost").length,
    unmeasured: rows.filter((row) => row.status === "graded" && row.outcome === null).length,
    reason: null,
  };
}

/** Boxes per growth class 0–4. Refused as NOT_A_GROWTH_CLASS when any outcome is not one of these. */
function growthDistribution(rows: readonly PoolRow[]): PoolDistribution {
  const measured = rows.filter(isAnalysed);
  const growers = countDistinct(measured, (row) => row.grower);
  const warnings: PoolWarning[] = growerWarnings(growers);
  const base = {
    method: "COUNTS" as const,
    boxes: measured.length,
    outings: countDistinct(measured, (row) => row.outing),
    growers,
    warnings,
  };
  if (measured.length === 0) return { ...base, classes: null, reason: "NO_BOXES" };
  const classes = [0, 0, 0, 0, 0];
  for (const { outcome } of measured) {
    const boxesSoFar = classes[outcome];
    if (boxesSoFar === undefined) return { ...base, classes: null, reason: "NOT_A_GROWTH_CLASS" };
    classes[outcome] = boxesSoFar + 1;
  }
  return { ...base, classes, reason: null };
}
