import { describe, expect, it } from "vitest";
import {
  growerArmPosterior,
  predictedDifference,
  trueDifference,
} from "@/lib/engine/statistics/mixed/prediction";
import { columnsOf } from "./columns-of";
import { fitted, reference } from "./reference";

describe.each(reference.prediction)("what a new grower would see: $name", ({ data, ...expected }) => {
  const fit = fitted(columnsOf(data));
  const arms = [String(expected.first), String(expected.second)] as const;

  it("predicts one set with lmerTest's derivatives for its df", () => {
    const found = predictedDifference(fit, "1", ...arms);
    if (!found.estimable) throw new Error(found.reason);
    expect(found.estimate).toBeCloseTo(expected.oneSet.estimate, 6);
    expect(found.se / expected.oneSet.se).toBeCloseTo(1, 6);
    expect(Math.abs(found.df / expected.oneSet.df - 1)).toBeLessThan(1e-3);
  });

  it("gives the true difference's interval as a fine grid over lme4's criterion does", () => {
    const posterior = growerArmPosterior(fit)!;
    const found = trueDifference(fit, posterior, "1", ...arms, 0.95);
    if (!found.estimable) throw new Error(found.reason);
    // 25 points here, 401 there: within 1 % of the interval's length.
    const length = expected.upper - expected.lower;
    expect(Math.abs(found.lower - expected.lower)).toBeLessThan(0.01 * length);
    expect(Math.abs(found.upper - expected.upper)).toBeLessThan(0.01 * length);
    expect(posterior.points.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
  });
});

describe("without a separable grower × arm variance", () => {
  it("there is no interval for the true difference, and one set's holds the sum", () => {
    const { data } = reference.cases.find(({ name }) => name === "one outing per grower")!;
    const fit = fitted(columnsOf(data));
    expect(growerArmPosterior(fit)).toBeNull();
    const mean = predictedDifference(fit, "1", "1", "2");
    if (!mean.estimable) throw new Error(mean.reason);
    expect(mean.se ** 2).toBeGreaterThan(2 * fit.variance.residual!);
  });
});
