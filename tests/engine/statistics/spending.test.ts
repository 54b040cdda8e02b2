import { describe, expect, it } from "vitest";
import { seededSource } from "@/lib/engine/random/source";
import { obrienFlemingSpent, spendingLooks } from "@/lib/engine/statistics/alpha-spending";
import { holm } from "@/lib/engine/statistics/holm";
import { verdictOf } from "@/lib/engine/statistics/verdict";
import { comparisonCases } from "./comparisons-reference";
import { normalsFrom } from "./simulated-trial";

describe("spending at looks before the plan's end", () => {
  it("has the published boundaries of five equally spaced looks", () => {
    // Reboussin, DeMets, Kim & Lan (2000, Controlled Clinical Trials 21:190–207), two-sided 5 %, from memory.
    const published = [4.8769, 3.3569, 2.6803, 2.2898, 2.031];
    const looks = spendingLooks([0.2, 0.4, 0.6, 0.8, 1], 0.05);
    looks.forEach(({ boundary }, i) => {
      // Their second look was integrated more coarsely; mvtnorm below has 3.3570.
      expect(Math.abs(boundary - published[i]!)).toBeLessThan(1.5e-4);
    });
  });

  it.each(comparisonCases.spending)("agrees with boundaries solved on pmvnorm: $fractions", (expected) => {
    const looks = spendingLooks(expected.fractions, expected.level);
    // pmvnorm's error of up to 3e-5 moves a late boundary by about that much over its density.
    looks.forEach(({ boundary }, i) => {
      expect(Math.abs(boundary - expected.boundaries[i]!)).toBeLessThan(3e-4);
    });
  });

  it("is the ordinary test when there is a single look at the end", () => {
    const [only] = spendingLooks([1], 0.05);
    expect(only!.boundary).toBeCloseTo(1.959963984540054, 9);
    expect(only!.level).toBeCloseTo(0.95, 12);
  });

  it("keeps 5 % over a look at every grower from 10 to 60, where testing each time at 5 % does not", () => {
    const fractions = Array.from({ length: 51 }, (_, i) => (10 + i) / 60);
    const looks = spendingLooks(fractions, 0.05);
    const normal = normalsFrom(seededSource("looks"));
    const runs = 4000;
    let [spent, naive] = [0, 0];
    for (let run = 0; run < runs; run++) {
      let score = 0;
      let [crossed, crossedNaively] = [false, false];
      fractions.forEach((fraction, i) => {
        score += normal() * Math.sqrt(fraction - (fractions[i - 1] ?? 0));
        const z = Math.abs(score) / Math.sqrt(fraction);
        crossed ||= z >= looks[i]!.boundary;
        crossedNaively ||= z >= 1.959964;
      });
      spent += Number(crossed);
      naive += Number(crossedNaively);
    }
    const monteCarloError = Math.sqrt((0.05 * 0.95) / runs);
    expect(Math.abs(spent / runs - 0.05)).toBeLessThan(3 * monteCarloError);
    expect(naive / runs).toBeGreaterThan(0.15);
  });

  it("shows nothing where nothing can be spent, and refuses fractions that don't rise", () => {
    expect(spendingLooks([0.001], 0.05)[0]).toMatchObject({ boundary: Infinity, level: 1 });
    expect(obrienFlemingSpent(0, 0.05)).toBe(0);
    expect(() => spendingLooks([0.5, 0.5], 0.05)).toThrow(RangeError);
    expect(() => spendingLooks([0.5, 1.1], 0.05)).toThrow(RangeError);
  });
});

describe("Holm's adjustment", () => {
  it("steps down", () => {
    // R: p.adjust(c(.01, .04, .03, .005, .9), "holm"), by hand: .005·5, .01·4, .03·3, then never falling.
    const adjusted = holm([0.01, 0.04, 0.03, 0.005, 0.9]);
    [0.04, 0.09, 0.09, 0.025, 0.9].forEach((p, i) => {
      expect(adjusted[i]).toBeCloseTo(p, 14);
    });
    expect(holm([])).toEqual([]);
  });
});

describe("verdicts by the margin", () => {
  it.each([
    [0.1, 0.9, 0.5, "FIRST_SUPERIOR"],
    [-0.9, -0.1, 0.5, "SECOND_SUPERIOR"],
    [-0.4, 0.4, 0.5, "EQUIVALENT"],
    [-0.4, 0.8, 0.5, "FIRST_NON_INFERIOR"],
    [-0.8, 0.4, 0.5, "SECOND_NON_INFERIOR"],
    [-0.8, 0.8, 0.5, "UNDECIDED"],
    [0, 0.4, 0.5, "EQUIVALENT"],
    [-0.5, 0.5, 0.5, "UNDECIDED"],
    [-0.1, 0.1, null, "UNDECIDED"],
    [0.1, 0.2, null, "FIRST_SUPERIOR"],
  ] as const)("%d to %d with margin %d: %s", (lower, upper, margin, verdict) => {
    expect(verdictOf(lower, upper, margin)).toBe(verdict);
  });

  it("refuses an interval upside down and a margin that isn't one", () => {
    expect(() => verdictOf(1, 0, null)).toThrow(RangeError);
    expect(() => verdictOf(0, 1, 0)).toThrow(RangeError);
  });
});
