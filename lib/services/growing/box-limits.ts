import { type Refusal, refuse } from "@/lib/errors/result";
import type { OutingInput } from "@/shared/schemas/outing";
import type { BoxLimits, StoredPlan } from "@/shared/schemas/plan";

/** The limits a trial's plan sets to boxes; null where it sets none. */
export function boxLimitsOf(plan: StoredPlan | null): BoxLimits | null {
  return (plan && "boxLimits" in plan && plan.boxLimits) || null;
}

/** Why boxes can't be as planned in a trial with these limits, or null. */
export function boxLimitFault(
  limits: BoxLimits | null,
  { boxKind, grainDepthCm }: Pick<OutingInput, "boxKind" | "grainDepthCm">,
): Refusal<"BOX_KIND_OUTSIDE_TRIAL" | "DEPTH_OUTSIDE_TRIAL"> | null {
  if (!limits) return null;
  if (limits.kinds && !limits.kinds.includes(boxKind)) return refuse("BOX_KIND_OUTSIDE_TRIAL");
  const { min, max } = limits.grainDepthCm;
  return grainDepthCm < min || grainDepthCm > max ? refuse("DEPTH_OUTSIDE_TRIAL") : null;
}
