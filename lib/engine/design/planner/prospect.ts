import type { CurvePoint, Needed } from "@/shared/schemas/planner-result";
import type { DealtDesign } from "./dealt-design";
import { anyDifferencePower, differencePower, equivalencePower, growersNeeded } from "./power";

/** What the figures are asked for. */
export interface Aims {
  readonly difference: number;
  readonly margin: number;
  /** 1 − level. */
  readonly alpha: number;
  readonly cleanTakeDifference: number | null;
}

/** A design seen at any number of growers, each telling as much on average as those it was dealt to. */
export interface Prospect {
  /** Of the estimated difference of two arms. */
  readonly variance: (growers: number) => number;
  /**
   * Of the t test of one pair: growers − 1, as its variance has to come from them, and no more than all growers'
   * own differences between arms leave when the arms' means are fitted.
   */
  readonly pairDf: (growers: number) => number;
  /** Of the F test's denominator: those differences, all arms taken together. */
  readonly errorDf: (growers: number) => number;
}

export function prospectOf(dealt: DealtDesign, variance: number): Prospect {
  const errorDf = (growers: number) =>
    Math.max(0, Math.floor((dealt.armDf / dealt.growers) * growers + 1e-9) - (dealt.arms - 1));
  return {
    variance: (growers) => (variance * dealt.growers) / growers,
    pairDf: (growers) => Math.min(growers - 1, errorDf(growers)),
    errorDf,
  };
}

/** Chances at a number of growers. */
export function pairPowerAt(prospect: Prospect, growers: number, { difference, alpha }: Aims): number {
  return differencePower(difference, prospect.variance(growers), prospect.pairDf(growers), alpha);
}

export function equivalenceAt(prospect: Prospect, growers: number, { margin, alpha }: Aims): number {
  return equivalencePower(margin, prospect.variance(growers), prospect.pairDf(growers), alpha);
}

export function anyDifferenceAt(
  prospect: Prospect,
  growers: number,
  arms: number,
  { difference, alpha }: Aims,
): number {
  const df = { df1: arms - 1, df2: prospect.errorDf(growers) };
  return anyDifferencePower(difference, prospect.variance(growers), df, alpha);
}

/** Growers and boxes for 80 and 90 %. */
export function neededFor(
  { boxes, growers }: { readonly boxes: number; readonly growers: number },
  powerAt: (growers: number) => number,
): (Needed | null)[] {
  return ([0.8, 0.9] as const).map((power) => {
    const needed = growersNeeded(power, powerAt);
    return needed === null ? null : { power, growers: needed, boxes: Math.round((needed * boxes) / growers) };
  });
}

/** Points of a curve: even steps to twice the growers or to where 90 % is reached, at most four times as many. */
const CURVE_STEPS = 12;

/** The curve of all chances against growers; `cleanTakeVariance` at the dealt number of growers, null when not asked. */
export function curveOf(
  dealt: DealtDesign,
  prospect: Prospect,
  aims: Aims,
  cleanTake: Prospect | null,
  needed: Needed | null,
): CurvePoint[] {
  const { growers } = dealt;
  const reach = needed === null ? growers * 4 : Math.min(needed.growers, growers * 4);
  const top = Math.max(12, growers * 2, reach);
  const steps = Array.from({ length: CURVE_STEPS }, (_, i) => Math.round((top * (i + 1)) / CURVE_STEPS));
  const points = [...new Set([...steps, growers])].filter((g) => g >= 2).sort((a, b) => a - b);
  return points.map((g) => ({
    growers: g,
    difference: pairPowerAt(prospect, g, aims),
    anyDifference: anyDifferenceAt(prospect, g, dealt.arms, aims),
    equivalence: equivalenceAt(prospect, g, aims),
    cleanTake:
      cleanTake === null || aims.cleanTakeDifference === null
        ? null
        : pairPowerAt(cleanTake, g, { ...aims, difference: aims.cleanTakeDifference }),
  }));
}
