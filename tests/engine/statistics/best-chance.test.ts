import { describe, expect, it } from "vitest";
import { seededSource } from "@/lib/engine/random/source";
import { bestChances, WinCount } from "@/lib/engine/statistics/best-chance";
import { normalUpperTail } from "@/lib/engine/statistics/distributions";
import { covarianceRoot } from "@/lib/engine/statistics/multivariate-t";
import { normalPoints } from "@/lib/engine/statistics/normal-points";
import { shrinkBands, shrunkenAt } from "@/lib/engine/statistics/shrink-bands";
import { shrinkArms } from "@/lib/engine/statistics/shrinkage";
import { categoricalCases, comparisonCases } from "./comparisons-reference";
import { relativelyClose } from "./reference";

/** Independent means of one variance. */
function independent(estimates: readonly number[], variance: number, df = Infinity) {
  return {
    estimates,
    covariance: estimates.map((_, a) => estimates.map((__, b) => (a === b ? variance : 0))),
    df,
  };
}

const nothingMore = (k: number) => ({ shifts: new Array(k).fill(0), variances: new Array(k).fill(0) });

describe("the chance of having the largest mean", () => {
  it.each(comparisonCases.families)("agrees with mvtnorm::pmvnorm: $k arms", (family) => {
    const root = covarianceRoot(family.covariance);
    const points = normalPoints(root[0]!.length, seededSource("largest"));
    const wins = new WinCount(family.estimates.length, points);
    const { dimension, pairsPerReplicate, values } = points;
    for (let i = 0, at = 0; at < values.length; i++, at += dimension) {
      for (const sign of [1, -1]) {
        const drawn = family.estimates.map((mean, a) =>
          root[a]!.reduce((sum, x, j) => sum + x * sign * values[at + j]!, mean),
        );
        wins.add(drawn, Math.floor(i / pairsPerReplicate));
      }
    }
    const { chances, monteCarloError } = wins.chances();
    expect(monteCarloError).toBeLessThan(2e-3);
    // pmvnorm's own error is below 1e-4.
    chances.forEach((chance, a) => {
      expect(Math.abs(chance - family.chanceBest[a]!)).toBeLessThan(5 * monteCarloError + 1e-4);
    });
    expect(chances.reduce((sum, x) => sum + x, 0)).toBeCloseTo(1, 12);
  });
});

describe("chances drawn towards each other", () => {
  it("go to the unshrunken ones where arms differ far more than their errors", () => {
    const arms = independent([0, 2, 1.98, -3], 1e-4);
    const options = { priorScale: 2, nextSet: nothingMore(4), points: normalPoints(8, seededSource("far")) };
    const { ofMean } = bestChances(arms, options);
    // P(N(.02, 2e-4) > 0).
    const expected = normalUpperTail(-0.02 / Math.sqrt(2e-4));
    expect(Math.abs(ofMean.chances[1]! - expected)).toBeLessThan(0.01);
    expect(ofMean.chances[0]! + ofMean.chances[3]!).toBe(0);
  });

  it("go to equal shares where errors are far larger than the arms can differ", () => {
    const options = {
      priorScale: 0.5,
      nextSet: nothingMore(3),
      points: normalPoints(8, seededSource("near")),
    };
    const { ofMean, tau } = bestChances(independent([3, -2, 1], 400), options);
    for (const chance of ofMean.chances) expect(Math.abs(chance - 1 / 3)).toBeLessThan(0.02);
    // Nothing learnt: the prior's mean, scale · √(2/π).
    expect(tau).toBeCloseTo(0.5 * Math.sqrt(2 / Math.PI), 2);
  });

  it("claim less for one set of boxes than for the mean, and follow the grower's own results", () => {
    const arms = independent([2, 2.5, 1.5], 0.02, 25);
    const noisy = { shifts: [0, 0, 0], variances: [1, 1, 1] };
    const { ofMean, ofNextSet } = bestChances(arms, {
      priorScale: 0.5,
      nextSet: noisy,
      points: normalPoints(8, seededSource("s")),
    });
    expect(ofMean.chances[1]).toBeGreaterThan(0.85);
    expect(ofNextSet.chances[1]!).toBeLessThan(0.6);
    expect(ofNextSet.chances[1]!).toBeGreaterThan(1 / 3);
    const own = { shifts: [0, -2, 0], variances: [1, 1, 1] };
    const forGrower = bestChances(arms, {
      priorScale: 0.5,
      nextSet: own,
      points: normalPoints(8, seededSource("s")),
    });
    expect(forGrower.ofNextSet.chances[1]!).toBeLessThan(0.15);
    expect(forGrower.ofMean).toEqual(ofMean);
  });

  it("weigh the spread between arms by its restricted likelihood, checked on a grid of its own", () => {
    // Equal independent errors v: Σ(y − ȳ)² / (τ² + v) ~ χ²(k − 1), so that the posterior of τ has a closed form.
    const y = [1, 1.6, 2.4, 0.7, 1.9];
    const [v, scale] = [0.09, 0.5];
    const centre = y.reduce((sum, x) => sum + x, 0) / y.length;
    const Q = y.reduce((sum, x) => sum + (x - centre) ** 2, 0);
    let [mass, moment] = [0, 0];
    for (let tau = 0.0005; tau < 4; tau += 0.001) {
      const density = Math.exp(-Q / (2 * (tau * tau + v)) - (tau / scale) ** 2 / 2) / (tau * tau + v) ** 2;
      mass += density;
      moment += tau * density;
    }
    const { covariance } = independent(y, v);
    const shrunken = shrinkArms(y, covariance, { df: Infinity, priorScale: scale });
    expect(shrunken.tau).toBeCloseTo(moment / mass, 3);
  });

  it("refuse a single arm and arms that can't differ", () => {
    expect(() => shrinkArms([1], [[1]], { df: 9, priorScale: 0.5 })).toThrow(RangeError);
    const twins = [
      [1, 1],
      [1, 1],
    ];
    expect(() => shrinkArms([1, 2], twins, { df: 9, priorScale: 0.5 })).toThrow(RangeError);
  });
});

describe("differences drawn towards all climate groups", () => {
  const { yi, vi, blups } = categoricalCases.bcg;
  const differences = yi.map((difference, b) => ({ difference, se: Math.sqrt(vi[b]!) }));

  it.each(blups)("are metafor's BLUPs of dat.bcg at τ = $tau", ({ tau, pred, se }) => {
    shrunkenAt(tau, differences).shrunken.forEach((at, b) => {
      expect(relativelyClose(at.difference, pred[b]!, 1e-10)).toBe(true);
      expect(relativelyClose(at.se, se[b]!, 1e-10)).toBe(true);
    });
  });

  it("have the restricted likelihood's top at metafor's REML τ² of dat.bcg, .3132432581", () => {
    const at = (tau2: number) => shrunkenAt(Math.sqrt(tau2), differences).logLikelihood;
    expect(at(0.3132432581)).toBeGreaterThan(at(0.3132432581 + 1e-4));
    expect(at(0.3132432581)).toBeGreaterThan(at(0.3132432581 - 1e-4));
  });

  it("lie between their own and the common value, and stay alone where they are alone", () => {
    const shrunken = shrinkBands(
      [
        { difference: 0.3, se: 0.4 },
        { difference: 0, se: 0.1 },
      ],
      { priorScale: 0.5 },
    );
    expect(shrunken[0]!.difference).toBeLessThan(0.3);
    expect(shrunken[0]!.difference).toBeGreaterThan(0);
    expect(shrunken[0]!.se).toBeLessThan(0.4);
    const alone = [{ difference: 1, se: 0.4 }];
    expect(shrinkBands(alone, { priorScale: 0.5 })).toEqual(alone);
  });
});
