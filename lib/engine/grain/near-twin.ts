import type { VariantContent } from "@/shared/schemas/protocol-variant";

/** How far two recipes may lie apart and still be hard to tell apart in a kitchen. Common practice, no source. */
export const TWIN_LIMITS = { moisturePoints: 2, cookMinutes: 5, soakHours: 2 } as const;

/** In what two near twins differ. */
export type TwinDifference = "water" | "cookMinutes" | "soakHours" | "rinsed" | "cooling";

export interface ComparedRecipe {
  readonly content: VariantContent;
  /** Predicted, wet basis, 0–1; null where cups of that grain have no known weight. */
  readonly moisture: number | null;
}

/**
 * In what two recipes differ if they are nearly the same: same grain, form and way of cooking; moisture, minutes and
 * soaking within `TWIN_LIMITS`. Null when they are not; empty when they are the same recipe. Where moisture is
 * unknown only equal ratios are near.
 */
export function nearTwin(one: ComparedRecipe, other: ComparedRecipe): readonly TwinDifference[] | null {
  const [a, b] = [one.content, other.content];
  if (a.grain !== b.grain || a.form !== b.form || a.cookMethod !== b.cookMethod) return null;
  if (Math.abs(a.cookMinutes - b.cookMinutes) > TWIN_LIMITS.cookMinutes) return null;
  if (Math.abs(a.soakHours - b.soakHours) > TWIN_LIMITS.soakHours) return null;
  const sameWater = a.ratioBasis === b.ratioBasis && a.waterToGrain === b.waterToGrain;
  if (!sameWater && !nearInMoisture(one.moisture, other.moisture)) return null;
  const differences: TwinDifference[] = [];
  if (!sameWater) differences.push("water");
  for (const field of ["cookMinutes", "soakHours", "rinsed", "cooling"] as const) {
    if (a[field] !== b[field]) differences.push(field);
  }
  return differences;
}

/** The limit counts as within, also where binary fractions put a difference of two points a hair above it. */
function nearInMoisture(a: number | null, b: number | null): boolean {
  return a !== null && b !== null && Math.abs(a - b) * 100 <= TWIN_LIMITS.moisturePoints + 1e-9;
}
