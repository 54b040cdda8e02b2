import { createHash } from "node:crypto";
import type { PooledTable } from "@/lib/engine/statistics/pool-columns";
import type { InterimLook } from "@/shared/schemas/pool";

/** Of intervals after no interim look. */
const PLAIN_LEVEL = 0.95;

/**
 * Names what a stored result was made of: the rows' own SHA-256 for a whole, final result that nothing but they
 * decided, else a SHA-256 over that, what is known beyond the rows, and how much of it was worked out at which level.
 */
export function cutName({ result, extras, plan }: PooledTable, interim: InterimLook | null): string {
  const { asCooked, fetchDay, usableMassG, masked, season, warmth, reusedSpot } = extras;
  const { sha256 } = result.data;
  const isPlain =
    Object.values(extras).every((known) => known === null) &&
    !interim &&
    plan.sensitivity &&
    plan.level === PLAIN_LEVEL;
  if (isPlain) return sha256;
  const hash = createHash("sha256").update(JSON.stringify([sha256, plan.level, plan.sensitivity, interim]));
  if (asCooked) hash.update(JSON.stringify(asCooked.labels)).update(asCooked.index);
  if (fetchDay) hash.update(Float64Array.from(fetchDay));
  if (usableMassG) hash.update("usable grams").update(Float64Array.from(usableMassG));
  if (masked) hash.update(masked.row).update(masked.grader).update(masked.take);
  if (season) hash.update(JSON.stringify(season.labels)).update(season.index);
  if (warmth) hash.update("warmth").update(JSON.stringify(warmth.labels)).update(warmth.index);
  if (reusedSpot) hash.update("reused spots").update(reusedSpot);
  return hash.digest("hex");
}
