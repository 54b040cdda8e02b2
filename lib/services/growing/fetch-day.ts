import type { StoredPlan } from "@/shared/schemas/plan";

/** When a set is fetched by its trial's plan, in whole days from set-out. */
export interface FetchDay {
  readonly afterDays: number;
  /** Whether chance picked the day for this set. */
  readonly isDrawn: boolean;
}

/**
 * Null where the look of the growth decides, and before the day is drawn.
 * @param drawnDays what the draw gave the set, if it was to give anything
 */
export function fetchDayOf(plan: StoredPlan | null, drawnDays: number | null): FetchDay | null {
  if (drawnDays !== null) return { afterDays: drawnDays, isDrawn: true };
  if (!plan || !("form" in plan) || plan.fetchRule.kind !== "same-day") return null;
  return { afterDays: plan.fetchRule.afterDays, isDrawn: false };
}

/** The days of which chance picks one for each set; empty where it picks none. */
export function stagedDaysOf(plan: StoredPlan | null): readonly number[] {
  return plan && "form" in plan && plan.fetchRule.kind === "staged" ? plan.fetchRule.afterDays : [];
}
