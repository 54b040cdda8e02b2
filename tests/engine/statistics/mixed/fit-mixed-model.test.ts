import { describe, expect, it } from "vitest";
import { cellMean, contrast, difference, jointTest } from "@/lib/engine/statistics/mixed/contrasts";
import type { CellWeight, MixedEstimate } from "@/lib/engine/statistics/mixed/types";
import { columnsOf } from "./columns-of";
import { fitted, type ReferenceEstimate, reference } from "./reference";

/** Estimates and standard errors to 1e-6 relative (estimates near 0: of a standard error), df to 1e-3 relative. */
function expectAlike(found: MixedEstimate, expected: ReferenceEstimate): void {
  if (!found.estimable) throw new Error(`Not estimable: ${found.reason}`);
  const size = Math.max(Math.abs(expected.estimate), expected.se);
  expect(Math.abs(found.estimate - expected.estimate) / size).toBeLessThan(1e-6);
  expect(Math.abs(found.se / expected.se - 1)).toBeLessThan(1e-6);
  expect(Math.abs(found.df / expected.df - 1)).toBeLessThan(1e-3);
}

/**
 * The same variance to 1e-6 relative, and 0 where lme4 has 0. A variance that is next to nothing beside `residual`
 * moves the criterion by less than its last digit, so that R can't know it as well: then to 1e-7 of that.
 */
function expectSameVariance(found: number | null, expected: number, residual = 0): void {
  const tolerance = expected === 0 ? 0 : Math.max(1e-6 * expected, 1e-7 * residual);
  expect(Math.abs((found ?? Number.NaN) - expected)).toBeLessThanOrEqual(tolerance);
}

describe("against lme4, lmerTest and emmeans (generate.R)", () => {
  describe.each(reference.cases)("$name", ({ name, data, random, ...expected }) => {
    const fit = fitted(columnsOf(data), { random: [random].flat(), rareSetGrowers: 0 });
    const separable = name !== "one outing per grower";

    it("finds the same minimum of the criterion", () => {
      expect(fit.converged).toBe(true);
      expect(Math.abs(fit.criterion - expected.criterion)).toBeLessThan(1e-9 * expected.criterion);
    });

    it.runIf(separable)("finds the same variances", () => {
      for (const name of ["outing", "grower", "growerArm", "residual"] as const) {
        if (expected.variance[name] === null) expect(fit.variance[name]).toBeNull();
        else expectSameVariance(fit.variance[name], expected.variance[name], expected.variance.residual);
      }
      const zeros = fit.warnings.filter((warning) => warning.code === "ZERO");
      expect(zeros).toHaveLength(
        Object.values(expected.variance).filter((variance) => variance === 0).length,
      );
    });

    it.runIf(!separable)("gives the sums of what can't be told apart, and says so", () => {
      // A line of variances has the same criterion; where on it lme4 stops is chance, the sums are not.
      const { outing, grower, growerArm, residual } = expected.variance;
      expect(fit.variance.outing! / (outing! + grower!)).toBeCloseTo(1, 5);
      expect(fit.variance.residual! / (growerArm! + residual)).toBeCloseTo(1, 5);
      expect(fit.variance.grower).toBeNull();
      expect(fit.variance.growerArm).toBeNull();
      expect(fit.warnings).toContainEqual({ code: "NOT_SEPARABLE", term: "grower", within: ["outing"] });
      expect(fit.warnings).toContainEqual({ code: "NOT_SEPARABLE", term: "growerArm", within: ["residual"] });
    });

    it("finds the same cell means and differences", () => {
      for (const mean of expected.means) {
        expectAlike(cellMean(fit, String(mean.band), String(mean.arm)), mean);
      }
      for (const pair of expected.pairs) {
        expectAlike(difference(fit, String(pair.band), String(pair.first), String(pair.second)), pair);
      }
    });

    it("finds the same F test of all arms of a band", () => {
      const [first, ...others] = expected.means.filter((mean) => mean.band === expected.means[0]!.band);
      const band = String(first!.band);
      const contrasts = others.map((mean): CellWeight[] => [
        { band, arm: String(mean.arm), weight: 1 },
        { band, arm: String(first!.arm), weight: -1 },
      ]);
      const joint = jointTest(fit, contrasts)!;
      expect(joint.df1).toBe(expected.joint.df1);
      expect(joint.f / expected.joint.f).toBeCloseTo(1, 5);
      expect(joint.df2 / expected.joint.df2).toBeCloseTo(1, 3);
      expect(joint.p / expected.joint.p).toBeCloseTo(1, 3);
      // A contrast that follows from the others adds nothing.
      expect(jointTest(fit, [...contrasts, contrasts[0]!])!.df1).toBe(joint.df1);
    });
  });

  describe.each(reference.fixed)("$name", ({ data, ...expected }) => {
    const fit = fitted(columnsOf(data), { fixedOutings: true });

    it("compares arms within outings as lme4 does with outings fixed", () => {
      expectSameVariance(fit.variance.growerArm, expected.growerArm);
      expectSameVariance(fit.variance.residual, expected.residual);
      for (const { first, second, ...estimate } of expected.pairs) {
        expectAlike(difference(fit, "1", String(first), String(second)), estimate);
      }
    });

    it("gives no cell means", () => {
      expect(cellMean(fit, "1", "1")).toEqual({ estimable: false, reason: "WITHIN_OUTINGS_ONLY" });
    });
  });
});

describe("published data (they come with R; answers from lme4 1.1-31 with xtol 1e-12, ftol 1e-14)", () => {
  it("Dyestuff, Davies & Goldsmith: six batches", () => {
    const fit = fitted(columnsOf({ y: reference.dyestuff.y, outing: reference.dyestuff.batch }), {
      random: ["outing"],
    });
    // 1764.05 and 2451.25 also follow by hand from the balanced analysis of variance.
    expect(fit.variance.outing).toBeCloseTo(1764.05, 4);
    expect(fit.variance.residual).toBeCloseTo(2451.25, 4);
    expect(fit.criterion).toBeCloseTo(319.6542768423, 9);
  });

  it("Dyestuff2, Box & Tiao: a variance at zero", () => {
    const fit = fitted(columnsOf({ y: reference.dyestuff2.y, outing: reference.dyestuff2.batch }), {
      random: ["outing"],
    });
    expect(fit.variance.outing).toBe(0);
    expect(fit.variance.residual).toBeCloseTo(13.80630963, 7);
    expect(fit.criterion).toBeCloseTo(161.8282778123, 9);
    expect(fit.warnings).toContainEqual({ code: "ZERO", term: "outing" });
  });

  it("Pastes, Davies & Goldsmith: casks within batches", () => {
    const { y, batch, sample } = reference.pastes;
    const fit = fitted(columnsOf({ y, grower: batch, outing: sample }), { random: ["outing", "grower"] });
    expect(fit.variance.outing).toBeCloseTo(8.4336659, 5);
    expect(fit.variance.grower).toBeCloseTo(1.6573109, 5);
    expect(fit.variance.residual).toBeCloseTo(0.67799995, 5);
    expect(fit.criterion).toBeCloseTo(246.9907458535, 9);
    const mean = cellMean(fit, "", "");
    expect(mean).toMatchObject({ estimable: true, se: expect.closeTo(0.67687022, 6) });
    expect(mean).toMatchObject({ df: expect.closeTo(9, 3) });
  });

  it("sleep, Student: without random terms it is the two-sample t test (t.test(extra ~ group, var.equal = TRUE))", () => {
    const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
    const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
    const y = [...first, ...second];
    const arm = y.map((_, i) => (i < first.length ? "1" : "2"));
    const fit = fitted(columnsOf({ y, arm, outing: y.map((_, i) => i) }), { random: [] });
    // t = −1.8608 on 18 df, as printed in R's own example.
    const found = difference(fit, "", "1", "2");
    if (!found.estimable) throw new Error(found.reason);
    expect(found.estimate / found.se).toBeCloseTo(-1.8608, 4);
    expect(found.df).toBeCloseTo(18, 6);
    expect(fit.variance).toMatchObject({ outing: null, grower: null, growerArm: null });
  });

  it("npk, Yates: a factorial in six blocks", () => {
    const { block, cell, yield: y, ...expected } = reference.npk;
    const fit = fitted(columnsOf({ y, outing: block, arm: cell }), { random: ["outing"] });
    expect(fit.criterion).toBeCloseTo(expected.criterion, 8);
    expectSameVariance(fit.variance.outing, expected.variance[0]);
    for (const mean of expected.means) expectAlike(cellMean(fit, "", mean.cell), mean);
    // N:P as lmer(yield ~ (N + P + K)^2 + (1 | block)) has it; N:P:K is confounded with blocks and adds nothing.
    const interaction = cell
      .filter((label, i) => cell.indexOf(label) === i)
      .map((arm) => {
        const [n, p] = arm.split(".").map(Number);
        return { band: "", arm, weight: n === p ? 0.5 : -0.5 };
      });
    expect(fit.variance.residual).toBeCloseTo(15.440556, 5);
    expectAlike(contrast(fit, interaction), { estimate: -3.7666667, se: 3.20838023, df: 12 });
  });
});
