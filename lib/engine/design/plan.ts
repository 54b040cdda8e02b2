import type { StoredPlan } from "@/shared/schemas/plan";
import { canonicalHash } from "../random/hash";

/** SHA-256 of the plan's canonical JSON (RFC 8785): what is published with the seal when the trial opens. */
export function planHash(plan: StoredPlan): string {
  return canonicalHash(plan);
}
