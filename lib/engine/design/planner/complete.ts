import type { RandomSource } from "../../random/source";
import type { SetOfArms } from "./information";
import { optimisedSets } from "./optimised";

/**
 * Sets with at least as many boxes as arms: every arm ⌊k/v⌋ times, and where boxes are left over, those go to k mod v
 * further arms, an incomplete design of their own.
 */
export function completeSets(arms: number, boxes: number, sets: number, random: RandomSource): SetOfArms[] {
  const whole = Array.from({ length: Math.floor(boxes / arms) }, () => [...Array(arms).keys()]).flat();
  const left = boxes % arms;
  if (left === 0) return Array.from({ length: sets }, () => whole);
  if (left === 1) return Array.from({ length: sets }, (_, s) => [...whole, s % arms]);
  return optimisedSets(arms, left, sets, random).map((extra) => [...whole, ...extra]);
}
