import { describe, expect, it } from "vitest";
import {
  anyDifferencePower,
  differencePower,
  equivalencePower,
  growersNeeded,
  ordinalBoxesPerArm,
} from "@/lib/engine/design/planner/power";
import { noncentralFUpperTail } from "@/lib/engine/statistics/noncentral";
import { cases } from "./reference";

describe("power of a difference", () => {
  // R 4.2.2 power.t.test(strict = TRUE), two independent groups; its uniroot-free form is exact to 1e-10.
  it.each(cases.tTests)("is that of two groups of $n at $difference", ({ n, difference, power }) => {
    expect(differencePower(difference, 2 / n, 2 * (n - 1), 0.05)).toBeCloseTo(power, 9);
  });

  // R: the one-sample t test's n, not whole, from uniroot; the growers needed are the next whole number.
  it("needs as many growers as power.t.test says", () => {
    const { difference, sd, n80, n90 } = cases.needed;
    const powerAt = (n: number) => differencePower(difference, sd ** 2 / n, n - 1, 0.05);
    expect(growersNeeded(0.8, powerAt)).toBe(Math.ceil(n80));
    expect(growersNeeded(0.9, powerAt)).toBe(Math.ceil(n90));
  });

  // Balanced incomplete sets, 7 arms in 28 sets of 3, E = 7/9, boxes' variance 1: r = 12, 50 df (from R's pt).
  it("of a pair in balanced incomplete sets of 3 of 7 arms is .563", () => {
    expect(differencePower(1, 2 / (12 * (7 / 9)), 50, 0.05)).toBeCloseTo(0.56306155118, 9);
  });

  it("is the level when there is no difference, and 0 without a degree of freedom", () => {
    expect(differencePower(0, 1, 7, 0.05)).toBeCloseTo(0.05, 12);
    expect(differencePower(1, 1, 0, 0.05)).toBe(0);
  });

  it("finds no number of growers where none would do", () => {
    expect(growersNeeded(0.8, () => 0.5)).toBeNull();
  });
});

describe("power to find any difference", () => {
  // R: 1 − pf(qf(.95, 3, 33), 3, 33, 6), the least noncentrality of a difference of 1 among 4 arms in 12 complete sets.
  it("among 4 arms in 12 complete sets is .467", () => {
    expect(anyDifferencePower(1, 2 / 12, { df1: 3, df2: 33 }, 0.05)).toBeCloseTo(0.46710885153, 8);
  });

  // R's power.anova.test(4, 5, 1, 3): noncentrality groups·… (groups − 1) n between/within.
  it("of a one-way layout is that of power.anova.test", () => {
    const { groups, n, betweenVariance, withinVariance, power } = cases.anova;
    const lambda = ((groups - 1) * n * betweenVariance) / withinVariance;
    const df2 = groups * (n - 1);
    // qf(.95, 3, 16) to print precision, from R.
    expect(noncentralFUpperTail(3.23887151745359, groups - 1, df2, lambda)).toBeCloseTo(power, 8);
    expect(power).toBeCloseTo(0.35355942382, 9);
  });

  it("with two arms is the two-sided t test", () => {
    expect(anyDifferencePower(0.7, 0.1, { df1: 1, df2: 14 }, 0.05)).toBeCloseTo(
      differencePower(0.7, 0.1, 14, 0.05),
      10,
    );
  });
});

describe("power to call equal arms equal", () => {
  // R: integrate() over the standard error's χ² density; the panels are fixed, so 1e-7 is what is promised.
  it.each(cases.equivalence)("within $margin at variance $variance on $df df", (one) => {
    expect(equivalencePower(one.margin, one.variance, one.df, 2 * one.oneSided)).toBeCloseTo(one.power, 7);
  });

  it("is 0 where the interval alone is wider than the margin, and nears 1 far within", () => {
    expect(equivalencePower(0.01, 1, 20, 0.05)).toBeLessThan(1e-6);
    expect(equivalencePower(10, 0.01, 20, 0.05)).toBeCloseTo(1, 9);
  });
});

describe("boxes for ordered classes", () => {
  // Whitehead 1993, Statistics in Medicine 12:2257–2271, the worked example: 93.4957 per arm.
  it("are those of Whitehead's example", () => {
    expect(ordinalBoxesPerArm([0.2, 0.5, 0.2, 0.1], Math.exp(0.887), 0.9, 0.05)).toBeCloseTo(93.4957, 4);
  });

  it("don't depend on which of two arms is named first", () => {
    const other = [0.2, 0.5, 0.2, 0.1].toReversed();
    const turned = ordinalBoxesPerArm(other, Math.exp(-0.887), 0.9, 0.05);
    expect(turned).toBeCloseTo(93.4957, 4);
  });
});
