import type { DrawInputs } from "@/shared/schemas/draw";
import type { RandomSource } from "../random/source";
import { cookableArms, type DrawResult, drawRefusal } from "./draw";

/**
 * Rule `grainlot-draw/1`: the least drawn first. It makes no new draws and never changes, so that old ones replay.
 * With k cookable arms and n boxes every arm is taken ⌊n/k⌋ times; the remaining n mod k boxes go to the arms least
 * drawn so far in the climate group, random among equals (all cookable arms are shuffled, then stably sorted by
 * `drawnBefore`); last, the arms taken are shuffled over the positions. Names of arms decide nothing, only their
 * order does, so relabelled arms give the relabelled result.
 */
export function leastDrawnFirst(inputs: DrawInputs, random: RandomSource): DrawResult {
  const refusal = drawRefusal(inputs);
  if (refusal !== null) return refusal;
  const { boxes } = inputs;
  const cookable = cookableArms(inputs.arms, inputs.grainsAtHand);
  const leastDrawnFirst = random.shuffle(cookable).sort((a, b) => a.drawnBefore - b.drawnBefore);
  const wholeRounds = Math.floor(boxes / cookable.length);
  const taken = [
    ...Array.from({ length: wholeRounds }, () => leastDrawnFirst).flat(),
    ...leastDrawnFirst.slice(0, boxes % cookable.length),
  ];
  const placements = random.shuffle(taken).map((arm, index) => ({ position: index + 1, arm: arm.code }));
  return { ok: true, placements };
}
