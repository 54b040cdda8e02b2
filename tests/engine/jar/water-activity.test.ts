import { describe, expect, it } from "vitest";
import {
  SATURATED_SUCROSE_SHARE,
  sucroseWaterActivity,
  sugarForGrainG,
  syrupOf,
} from "@/lib/engine/jar/water-activity";

/**
 * Per cent of sucrose by weight, water activity. Worked out apart from this code, in Python, by Norrish's equation with
 * K = 6.47 (Chirife & Favetto, from memory), given to four decimals.
 */
const SUCROSE = [
  [0, 1],
  [10, 0.994],
  [20, 0.9859],
  [26.1, 0.9796],
  [30, 0.9749],
  [39.7, 0.9595],
  [40, 0.9589],
  [48.2, 0.94],
  [50, 0.9348],
  [54.4, 0.9199],
  [58.4, 0.9031],
  [60, 0.8953],
  [65, 0.8654],
  [67.47, 0.8468],
  [70, 0.8243],
  [75, 0.7657],
  [80, 0.6793],
] as const;

/**
 * Moisture of the grain, sugar per gram of grain, sucrose of the syrup in per cent, water activity, whether saturated.
 * From the same calculation: all sugar dissolved as sucrose, starch and salts ignored, brown sugar with 97 % sugars and
 * 1.34 % water (USDA SR 28). 0.6844 and 0.688 are the moistures of cooked rice and pearl barley there.
 */
const JARS = [
  [0.45, 0.5, 51.5, 0.9301, false],
  [0.45, 1, 67.67, 0.8468, true],
  [0.45, 1.5, 75.58, 0.8468, true],
  [0.5, 0.5, 48.91, 0.938, false],
  [0.5, 1, 65.39, 0.8627, false],
  [0.5, 2, 78.64, 0.8468, true],
  [0.55, 1, 63.26, 0.8769, false],
  [0.6, 0.5, 44.43, 0.9496, false],
  [0.6, 1, 61.26, 0.8886, false],
  [0.6, 1.5, 70.12, 0.8468, true],
  [0.65, 1, 59.39, 0.8984, false],
  [0.6844, 1, 58.16, 0.9042, false],
  [0.6844, 1.5, 67.38, 0.8476, false],
  [0.688, 0.5, 41.11, 0.9568, false],
  [0.688, 1, 58.04, 0.9048, false],
  [0.7, 1, 57.62, 0.9067, false],
  [0.7, 1.5, 66.89, 0.8514, false],
  [0.75, 1, 55.96, 0.9138, false],
  [0.75, 1.5, 65.39, 0.8627, false],
  [0.75, 2, 71.41, 0.8468, true],
] as const;

/** Half of the last decimal given. */
const [HALF_PERCENT_DIGIT, HALF_ACTIVITY_DIGIT] = [0.0051, 0.000051];

describe("the water activity of sucrose in water", () => {
  it.each(SUCROSE)("is that of Norrish's equation at %d %%", (percent, activity) => {
    expect(Math.abs(sucroseWaterActivity(percent / 100) - activity)).toBeLessThan(HALF_ACTIVITY_DIGIT);
  });

  it("of a saturated solution is that of the reference salt-and-sugar tables, about 0.844 (from memory)", () => {
    expect(Math.abs(sucroseWaterActivity(SATURATED_SUCROSE_SHARE) - 0.844)).toBeLessThan(0.005);
  });

  it("throws for what is no share", () => {
    for (const share of [-0.1, 1, 67.5, Number.NaN]) {
      expect(() => sucroseWaterActivity(share)).toThrow(RangeError);
    }
  });
});

describe("the syrup in a jar", () => {
  it.each(JARS)(
    "at moisture %d and %d g of sugar a gram",
    (moisture, sugar, percent, activity, saturated) => {
      const syrup = syrupOf([{ massG: 1, moisture }], sugar)!;
      expect(Math.abs(100 * syrup.sucroseShare - percent)).toBeLessThan(HALF_PERCENT_DIGIT);
      expect(Math.abs(syrup.waterActivityAtMost - activity)).toBeLessThan(HALF_ACTIVITY_DIGIT);
      expect(syrup.isSaturated).toBe(saturated);
    },
  );

  it("takes several boxes as one, by the water in each", () => {
    const two = syrupOf(
      [
        { massG: 300, moisture: 0.6 },
        { massG: 100, moisture: 0.72 },
      ],
      400,
    );
    expect(two).toEqual(syrupOf([{ massG: 400, moisture: 0.63 }], 400));
  });

  it("is never above water and never below saturated syrup, and falls with more sugar", () => {
    const floor = sucroseWaterActivity(SATURATED_SUCROSE_SHARE);
    let last = 1;
    for (let sugar = 0; sugar <= 3; sugar += 0.05) {
      const { waterActivityAtMost } = syrupOf([{ massG: 1, moisture: 0.65 }], sugar)!;
      expect(waterActivityAtMost).toBeLessThanOrEqual(last);
      expect(waterActivityAtMost).toBeGreaterThanOrEqual(floor);
      last = waterActivityAtMost;
    }
    expect(syrupOf([], 0)).toBeNull();
  });

  it("gets as much sugar as grain by weight (common practice, and CTAHR BIO-9)", () => {
    expect(sugarForGrainG(640)).toBe(640);
  });
});
