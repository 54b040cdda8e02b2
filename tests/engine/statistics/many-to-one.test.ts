import { describe, expect, it } from "vitest";
import { seededSource } from "@/lib/engine/random/source";
import { compareWithBest } from "@/lib/engine/statistics/best-comparisons";
import { tQuantile, tUpperTail } from "@/lib/engine/statistics/distributions";
import { compareWithReference } from "@/lib/engine/statistics/dunnett";
import { normalPoints } from "@/lib/engine/statistics/normal-points";
import { asList, comparisonCases } from "./comparisons-reference";

const { families, plant } = comparisonCases;
const points = normalPoints(16, seededSource("comparisons"));
/** mvtnorm's own error at the settings of comparisons.R, of probabilities and of critical values. */
const R_PROBABILITY_ERROR = 1e-4;
const R_CRITICAL_ERROR = 1.5e-3;

/** Equal and independent means of variance 1/2, so that differences have variance 1. */
function balanced(estimates: readonly number[], df: number) {
  const covariance = estimates.map((_, a) => estimates.map((_, b) => (a === b ? 0.5 : 0)));
  return { estimates, covariance, df };
}

describe("comparisons with a reference (Dunnett)", () => {
  it.each(families)("agree with mvtnorm on unequal covariances: $k arms, $df df", (family) => {
    const { comparisons, critical, monteCarloError } = compareWithReference(family, {
      reference: 0,
      level: 0.95,
      points,
    });
    expect(Math.abs(critical - family.dunnett.critical)).toBeLessThan(4 * monteCarloError + R_CRITICAL_ERROR);
    expect(monteCarloError).toBeLessThan(0.005);
    comparisons.forEach(({ p, pMonteCarloError }, i) => {
      const expected = asList(family.dunnett.p)[i]!;
      expect(Math.abs(p - expected)).toBeLessThan(4 * pMonteCarloError + R_PROBABILITY_ERROR);
    });
  });

  it("agree with multcomp on PlantGrowth", () => {
    const { estimates, mse, perArm, df, dunnettP } = plant;
    const covariance = estimates.map((_, a) => estimates.map((_, b) => (a === b ? mse / perArm : 0)));
    const { comparisons } = compareWithReference(
      { estimates, covariance, df },
      { reference: 0, level: 0.95, points },
    );
    comparisons.forEach(({ p, pMonteCarloError }, i) => {
      expect(Math.abs(p - dunnettP[i]!)).toBeLessThan(4 * pMonteCarloError + 1e-3);
    });
  });

  it("have Dunnett's tabled critical values", () => {
    // Dunnett (1964, Biometrics 20:482–491), two-sided 5 %, from memory: [treatments besides control, df, value].
    for (const [treatments, df, value] of [
      [2, 10, 2.57],
      [3, 20, 2.54],
      [5, 20, 2.73],
    ] as const) {
      const means = balanced(new Array(treatments + 1).fill(0), df);
      const { critical } = compareWithReference(means, { reference: 0, level: 0.95, points });
      // Rounding of the table and Monte Carlo error.
      expect(Math.abs(critical - value)).toBeLessThan(0.012);
    }
  });

  it("are Student's t for a single arm, small tails included", () => {
    const { comparisons, critical } = compareWithReference(balanced([0, 9], 30), {
      reference: 0,
      level: 0.9,
      points,
    });
    expect(critical).toBeCloseTo(tQuantile(0.95, 30), 9);
    expect(comparisons[0]!.p / (2 * tUpperTail(9, 30))).toBeCloseTo(1, 9);
  });

  it("come out the same from the same seed, and say how far another would move them", () => {
    const run = (seed: string) =>
      compareWithReference(families[3]!, {
        reference: 2,
        level: 0.95,
        points: normalPoints(16, seededSource(seed)),
      });
    expect(run("one")).toEqual(run("one"));
    const gaps = ["a", "b", "c", "d", "e", "f"].map((seed) => run(seed).critical - run("one").critical);
    expect(Math.max(...gaps.map(Math.abs))).toBeLessThan(5 * run("one").monteCarloError);
  });

  it("refuse a reference that isn't there and a difference without variance", () => {
    const options = { level: 0.95, points };
    expect(() => compareWithReference(balanced([1, 2], 9), { ...options, reference: 2 })).toThrow(RangeError);
    const same = {
      estimates: [1, 2],
      covariance: [
        [1, 1],
        [1, 1],
      ],
      df: 9,
    };
    expect(() => compareWithReference(same, { ...options, reference: 0 })).toThrow(RangeError);
  });
});

describe("comparisons with the best (Hsu)", () => {
  it.each(families)("agree with intervals made of mvtnorm's critical values: $k arms, $df df", (family) => {
    const intervals = compareWithBest(family, { level: 0.95, points });
    const worst = Math.max(...intervals.map(({ monteCarloError }) => monteCarloError));
    intervals.forEach(({ arm, lower, upper, mayBeBest }) => {
      // Standard errors of differences are below 1 here, so that an error of a critical value bounds the ends' one.
      expect(Math.abs(lower - family.hsu.lower[arm]!)).toBeLessThan(4 * worst + R_CRITICAL_ERROR);
      expect(Math.abs(upper - family.hsu.upper[arm]!)).toBeLessThan(4 * worst + R_CRITICAL_ERROR);
      expect(mayBeBest).toBe(family.hsu.upper[arm]! > 0);
    });
  });

  it("name a clear winner: its interval stays at or above 0, all others' at or below", () => {
    const intervals = compareWithBest(balanced([0, 0.5, 20], 40), { level: 0.95, points });
    expect(intervals[2]).toMatchObject({ lower: 0, mayBeBest: true });
    expect(intervals[2]!.upper).toBeGreaterThan(19.5);
    for (const loser of intervals.slice(0, 2)) expect(loser).toMatchObject({ upper: 0, mayBeBest: false });
  });

  it("are the one-sided t interval on either side for two arms", () => {
    const [first, second] = compareWithBest(balanced([1, 0.4], 12), { level: 0.95, points });
    const t = tQuantile(0.95, 12);
    expect(first!.upper).toBeCloseTo(0.6 + t, 8);
    expect(first!.lower).toBeCloseTo(0.6 - t, 8);
    expect(second!.upper).toBeCloseTo(-0.6 + t, 8);
    expect(second!.lower).toBeCloseTo(-0.6 - t, 8);
  });
});
