import type { LedgerPlan } from "@/shared/schemas/ledger-file";
import { canonicalHash } from "../random/hash";

/** SHA-256 of the plan's canonical JSON (RFC 8785): what is published with the seal when the trial opens. */
export function planHash(plan: LedgerPlan): string {
  return canonicalHash(plan);
}
