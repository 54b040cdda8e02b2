import type { Measure, OffColour, TakeClass } from "@/shared/vocabulary/growth";
import { OFF_COLOURS } from "@/shared/vocabulary/growth";

/** Least take of a clean take. */
export const CLEAN_TAKE_MIN = 3;
/** Most off-colour of a clean take, per cent of the grain surface, the limit included. */
export const CLEAN_OFF_COLOUR_MAX_PERCENT = 10;

/** Why a measure gives no value. */
export type NoValueReason = "NOT_MEASURED" | "CANT_TELL" | "NOT_ANSWERED";

export type TakeResult =
  | {
      readonly take: TakeClass;
      readonly from: "PERCENT" | "CLASS";
      /** A picture was picked too and stands for another class than the number. */
      readonly classDiffers: boolean;
    }
  | { readonly take: null; readonly reason: NoValueReason };

export type OffColourTotal =
  | { readonly percent: number; readonly overWhole: boolean }
  | {
      readonly percent: null;
      /** Sum of the colours that were given: the total is at least this. */
      readonly atLeastPercent: number;
      readonly missing: Readonly<Partial<Record<OffColour, NoValueReason>>>;
    };

export type CleanTakeReason =
  | "CLEAN"
  | "TAKE_BELOW_3"
  | "OFF_COLOUR_OVER_10_PERCENT"
  | "TAKE_UNKNOWN"
  | "OFF_COLOUR_UNKNOWN";

export interface CleanTakeResult {
  readonly cleanTake: boolean | null;
  readonly reasons: readonly CleanTakeReason[];
}

/**
 * Take from cover, the per cent (0–100) of the grain surface under white or grey growth, by the boundaries of
 * ASTM G21: 0 none; 1 below 10; 2 from 10 to below 30; 3 from 30 to 60; 4 above 60. Throws RangeError outside 0–100.
 */
export function takeFromCover(coverPercent: number): TakeClass {
  if (!(coverPercent >= 0 && coverPercent <= 100)) {
    throw new RangeError(
      `Cover is from 0 to 100 per cent, not ${coverPercent}; parse the grade with its schema.`,
    );
  }
  if (coverPercent === 0) return 0;
  if (coverPercent < 10) return 1;
  if (coverPercent < 30) return 2;
  if (coverPercent <= 60) return 3;
  return 4;
}

/** Take of a grade. A typed per cent decides; without one the picked class; without both, why there is none. */
export function takeOf(grade: {
  readonly coverPercent: Measure<number>;
  readonly coverClass: Measure<TakeClass>;
}): TakeResult {
  const { coverPercent, coverClass } = grade;
  const picked = hasValue(coverClass) ? coverClass.value : null;
  if (hasValue(coverPercent)) {
    const take = takeFromCover(coverPercent.value);
    return { take, from: "PERCENT", classDiffers: picked !== null && picked !== take };
  }
  if (picked !== null) return { take: picked, from: "CLASS", classDiffers: false };
  return { take: null, reason: reasonOf(coverClass ?? coverPercent) };
}

/**
 * Per cent of the grain surface under growth that is neither white nor grey: the sum over the colours, known only
 * when every colour is. Estimates may add up to more than the whole surface; the sum is kept and flagged.
 */
export function offColourTotal(byColour: Readonly<Record<OffColour, Measure<number>>>): OffColourTotal {
  const missing: Partial<Record<OffColour, NoValueReason>> = {};
  let percent = 0;
  for (const colour of OFF_COLOURS) {
    const measured = byColour[colour];
    if (hasValue(measured)) percent += measured.value;
    else missing[colour] = reasonOf(measured);
  }
  percent = Math.round(percent * 1e6) / 1e6; // 0.3 + 7.9 + 1.8 is 10, not a hair above
  if (Object.keys(missing).length > 0) return { percent: null, atLeastPercent: percent, missing };
  return { percent, overWhole: percent > 100 };
}

/**
 * Clean take: take ≥ 3 and off-colour ≤ 10 %. One condition known to fail makes it false, whatever else is unknown;
 * true needs both known; else `null`. Every reason that bears on the answer is given.
 */
export function cleanTakeOf(take: TakeResult, offColour: OffColourTotal): CleanTakeResult {
  const leastPercent = offColour.percent ?? offColour.atLeastPercent;
  const failed: CleanTakeReason[] = [];
  if (take.take !== null && take.take < CLEAN_TAKE_MIN) failed.push("TAKE_BELOW_3");
  if (leastPercent > CLEAN_OFF_COLOUR_MAX_PERCENT) failed.push("OFF_COLOUR_OVER_10_PERCENT");
  if (failed.length > 0) return { cleanTake: false, reasons: failed };

  const unknown: CleanTakeReason[] = [];
  if (take.take === null) unknown.push("TAKE_UNKNOWN");
  if (offColour.percent === null) unknown.push("OFF_COLOUR_UNKNOWN");
  if (unknown.length > 0) return { cleanTake: null, reasons: unknown };
  return { cleanTake: true, reasons: ["CLEAN"] };
}

function hasValue<T>(measured: Measure<T>): measured is { readonly value: T } {
  return typeof measured === "object" && measured !== null;
}

function reasonOf(measured: Measure<unknown>): NoValueReason {
  if (measured === "cant_tell") return "CANT_TELL";
  if (measured === "not_measured") return "NOT_MEASURED";
  return "NOT_ANSWERED";
}
