import { describe, expect, it } from "vitest";
import { tUpperTail } from "@/lib/engine/statistics/distributions";
import {
  studentizedRangeCritical,
  studentizedRangeUpperTail,
} from "@/lib/engine/statistics/studentized-range";
import { tukeyKramer } from "@/lib/engine/statistics/tukey-kramer";
import { comparisonCases, studentizedRangeCases } from "./comparisons-reference";
import { relativelyClose } from "./reference";

describe("the studentized range", () => {
  it.each(studentizedRangeCases.cdf)("P(Q < %d) of %d means on %d df is scipy's %d", (q, groups, df, cdf) => {
    expect(Math.abs(1 - studentizedRangeUpperTail(q, groups, df) - cdf)).toBeLessThan(1e-10);
  });

  it.each(studentizedRangeCases.critical)(
    "upper tail %d of %d means on %d df is scipy's %d",
    (p, k, df, q) => {
      expect(relativelyClose(studentizedRangeCritical(p, k, df), q, 1e-9)).toBe(true);
    },
  );

  it("is √2 |t| for two means, exactly, however far out", () => {
    for (const [q, df] of [
      [8, 2],
      [40, 7],
      [12, 300],
      [300, 1],
    ] as const) {
      const exact = 2 * tUpperTail(q / Math.SQRT2, df);
      expect(relativelyClose(studentizedRangeUpperTail(q, 2, df), exact, 1e-10)).toBe(true);
    }
  });

  it("goes over into the range of normals as df grows", () => {
    // Harter (1960, Annals of Mathematical Statistics 31:1122–1147), from memory: upper 5 % points at df = ∞.
    for (const [groups, q] of [
      [2, 2.772],
      [3, 3.314],
      [10, 4.474],
    ] as const) {
      expect(studentizedRangeCritical(0.05, groups, Infinity)).toBeCloseTo(q, 3);
    }
    const limit = studentizedRangeUpperTail(4, 5, Infinity);
    expect(relativelyClose(studentizedRangeUpperTail(4, 5, 1e8), limit, 1e-6)).toBe(true);
  });

  it("refuses fewer than two means, no degrees of freedom and probabilities outside 0–1", () => {
    expect(() => studentizedRangeUpperTail(3, 1, 10)).toThrow(RangeError);
    expect(() => studentizedRangeUpperTail(3, 3, 0)).toThrow(RangeError);
    expect(() => studentizedRangeCritical(1, 3, 10)).toThrow(RangeError);
  });
});

describe("Tukey–Kramer", () => {
  const { estimates, mse, perArm, df, tukeyP, tukey } = comparisonCases.plant;
  const se = Math.sqrt((2 * mse) / perArm);
  // Pairs in TukeyHSD's order.
  const pairs = [
    [1, 0],
    [2, 0],
    [2, 1],
  ] as const;

  it("gives TukeyHSD(aov(weight ~ group, PlantGrowth)): .3909, .1980, .0120", () => {
    pairs.forEach(([first, second], i) => {
      const difference = estimates[first]! - estimates[second]!;
      const { lower, upper, p } = tukeyKramer({ difference, se, df }, 3, 0.95);
      // R's ptukey is good to about 1e-8 here.
      expect(p).toBeCloseTo(tukeyP[i]!, 7);
      expect(lower).toBeCloseTo(tukey[i]![0], 6);
      expect(upper).toBeCloseTo(tukey[i]![1], 6);
    });
    expect(tukeyP[2]).toBeCloseTo(0.0120064238, 9);
  });
});
