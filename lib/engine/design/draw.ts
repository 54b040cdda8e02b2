import { BOXES_PER_OUTING, type DrawInputs, type LedgerEntry, type Placement } from "@/shared/schemas/draw";
import type { LedgerPlan } from "@/shared/schemas/ledger-file";
import type { RandomSource } from "../random/source";
import type { DrawTally } from "./tally";

/** Why no draw can be made, with what would make one possible. */
export type DrawRefusal =
  | { readonly ok: false; readonly reason: "BAD_BOX_COUNT"; readonly remedy: "CHOOSE_2_TO_12_BOXES" }
  | { readonly ok: false; readonly reason: "NO_ARM_POSSIBLE"; readonly remedy: "GET_GRAIN_OF_THIS_TRIAL" }
  | { readonly ok: false; readonly reason: "ONE_ARM_ONLY"; readonly remedy: "GET_GRAIN_OF_ANOTHER_ARM" };

export type DrawResult =
  | { readonly ok: true; readonly placements: readonly Placement[]; readonly fetchAfterDays?: number }
  | DrawRefusal;

/** What earlier draws of the trial say to the next one, besides its inputs. Returns count in none of it but `returned`. */
export interface DrawHistory {
  /** The outing's climate group, whole. */
  readonly group: DrawTally;
  /** That climate group within the outing's region. */
  readonly region: DrawTally;
  /** Arm code → boxes in the household's earlier draws in the trial, whatever the climate group; absent is none. */
  readonly metByHousehold: ReadonlyMap<string, number>;
  /** What comes back of the set named by `inputs.returns`, the first to come first; null without one. */
  readonly returned: Pick<LedgerEntry, "result" | "fetchAfterDays"> | null;
}

/** What a plan says to its draws. */
export interface DrawDesign {
  /** Chance that a household's later set holds an arm it has met, 0 to 1. */
  readonly meetAgainShare: number;
  /** The days of which one is drawn for each set; null when fetches aren't staged. */
  readonly fetchAfterDays: readonly number[] | null;
}

/** A rule is a function of its arguments alone, with + − × / and comparisons only, so that any machine replays it. */
export type DrawRule = (
  inputs: DrawInputs,
  random: RandomSource,
  history: DrawHistory,
  design: DrawDesign,
) => DrawResult;

/** What the plan says to its draws; plans of the first form say nothing of meeting again or of fetch days. */
export function designOf(plan: LedgerPlan): DrawDesign {
  if (!("form" in plan)) return { meetAgainShare: 0, fetchAfterDays: null };
  const { meetAgainShare, fetchRule } = plan;
  return { meetAgainShare, fetchAfterDays: fetchRule.kind === "staged" ? fetchRule.afterDays : null };
}

/** The arms whose grain is at hand, in the plan's order. */
export function cookableArms<A extends { readonly grain: string }>(
  arms: readonly A[],
  grainsAtHand: readonly string[],
): readonly A[] {
  return arms.filter((arm) => grainsAtHand.includes(arm.grain));
}

/**
 * Why no rule draws for these inputs, or null. A set of boxes for which only one arm can be cooked is refused: it
 * compares nothing within the outing.
 */
export function drawRefusal({ boxes, arms, grainsAtHand }: DrawInputs): DrawRefusal | null {
  if (!Number.isInteger(boxes) || boxes < BOXES_PER_OUTING.min || boxes > BOXES_PER_OUTING.max) {
    return { ok: false, reason: "BAD_BOX_COUNT", remedy: "CHOOSE_2_TO_12_BOXES" };
  }
  const cookable = cookableArms(arms, grainsAtHand).length;
  if (cookable === 0) return { ok: false, reason: "NO_ARM_POSSIBLE", remedy: "GET_GRAIN_OF_THIS_TRIAL" };
  if (cookable === 1) return { ok: false, reason: "ONE_ARM_ONLY", remedy: "GET_GRAIN_OF_ANOTHER_ARM" };
  return null;
}
