import { BOXES_PER_OUTING, type DrawInputs, type Placement } from "@/shared/schemas/draw";
import type { RandomSource } from "../random/source";

/** The rule new draws are made by. A changed rule gets a new name; the old one stays, to replay old draws. */
export const DRAW_ALGORITHM = "grainlot-draw/1";

/** Why no draw can be made, with what would make one possible. */
export type DrawRefusal =
  | { readonly ok: false; readonly reason: "BAD_BOX_COUNT"; readonly remedy: "CHOOSE_2_TO_12_BOXES" }
  | { readonly ok: false; readonly reason: "NO_ARM_POSSIBLE"; readonly remedy: "GET_GRAIN_OF_THIS_TRIAL" }
  | { readonly ok: false; readonly reason: "ONE_ARM_ONLY"; readonly remedy: "GET_GRAIN_OF_ANOTHER_ARM" };

export type DrawResult = { readonly ok: true; readonly placements: readonly Placement[] } | DrawRefusal;

export type DrawRule = (inputs: DrawInputs, random: RandomSource) => DrawResult;

const RULES: ReadonlyMap<string, DrawRule> = new Map([[DRAW_ALGORITHM, leastReplicatedFirst]]);

/** The rule of that name, or undefined when this version of Grainlot does not know it. */
export function drawRule(algorithm: string): DrawRule | undefined {
  return RULES.get(algorithm);
}

/**
 * Draws the arms of an outing's boxes by the current rule.
 * @param random the draw's own source (`drawSource`); nothing else decides among equals or positions.
 * A set of boxes for which only one arm can be cooked is refused: it compares nothing within the outing.
 */
export const drawAllocation: DrawRule = leastReplicatedFirst;

/** The arms whose grain is at hand, in the plan's order. */
export function cookableArms<A extends { readonly grain: string }>(
  arms: readonly A[],
  grainsAtHand: readonly string[],
): readonly A[] {
  return arms.filter((arm) => grainsAtHand.includes(arm.grain));
}

/**
 * Rule 1. With k cookable arms and n boxes every arm is taken ⌊n/k⌋ times; the remaining n mod k boxes go to
 * the arms least drawn so far in the climate group, random among equals (all cookable arms are shuffled, then
 * stably sorted by `drawnBefore`); last, the arms taken are shuffled over the positions. Names of arms decide
 * nothing, only their order does, so relabelled arms give the relabelled result.
 */
function leastReplicatedFirst(inputs: DrawInputs, random: RandomSource): DrawResult {
  const { boxes } = inputs;
  if (!Number.isInteger(boxes) || boxes < BOXES_PER_OUTING.min || boxes > BOXES_PER_OUTING.max) {
    return { ok: false, reason: "BAD_BOX_COUNT", remedy: "CHOOSE_2_TO_12_BOXES" };
  }
  const cookable = cookableArms(inputs.arms, inputs.grainsAtHand);
  if (cookable.length === 0) {
    return { ok: false, reason: "NO_ARM_POSSIBLE", remedy: "GET_GRAIN_OF_THIS_TRIAL" };
  }
  if (cookable.length === 1) {
    return { ok: false, reason: "ONE_ARM_ONLY", remedy: "GET_GRAIN_OF_ANOTHER_ARM" };
  }
  const leastDrawnFirst = random.shuffle(cookable).sort((a, b) => a.drawnBefore - b.drawnBefore);
  const wholeRounds = Math.floor(boxes / cookable.length);
  const taken = [
    ...Array.from({ length: wholeRounds }, () => leastDrawnFirst).flat(),
    ...leastDrawnFirst.slice(0, boxes % cookable.length),
  ];
  const placements = random.shuffle(taken).map((arm, index) => ({ position: index + 1, arm: arm.code }));
  return { ok: true, placements };
}
