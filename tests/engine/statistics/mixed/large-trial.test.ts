import { describe, expect, it } from "vitest";
import { seededSource } from "@/lib/engine/random/source";
import type { PoolColumns } from "@/lib/engine/statistics/columns";
import { cellMean } from "@/lib/engine/statistics/mixed/contrasts";
import { fitted } from "./reference";

const GROWERS = 6000;
const OUTINGS = 2;
const BOXES = 3;

/** One arm in balanced nested outings: growers, 2 outings each, 3 boxes each. */
function nested(): PoolColumns {
  const source = seededSource("nested");
  const n = GROWERS * OUTINGS * BOXES;
  const zeros = new Int32Array(n);
  const effect = (levels: number) => Array.from({ length: levels }, () => source.unit() - 0.5);
  const [growers, outings] = [effect(GROWERS), effect(GROWERS * OUTINGS)];
  const outing = Int32Array.from({ length: n }, (_, i) => Math.floor(i / BOXES));
  const grower = outing.map((o) => Math.floor(o / OUTINGS));
  return {
    n,
    labels: {
      grower: growers.map((_, g) => `g${g}`),
      outing: outings.map((_, o) => `o${o}`),
      band: ["b"],
      arm: ["a"],
      availability: [""],
    },
    grower,
    outing,
    band: zeros,
    arm: zeros,
    availability: zeros,
    outcome: Float64Array.from({ length: n }, (_, i) => {
      return 100 + growers[grower[i]!]! + outings[outing[i]!]! + 2 * (source.unit() - 0.5);
    }),
    lost: new Uint8Array(n),
  };
}

/** Σ (mean of the part − mean of the whole)², parts being runs of `size` values within runs of `whole`. */
function squaresBetween(y: Float64Array, size: number, whole: number): number {
  const mean = (from: number, count: number) =>
    y.subarray(from, from + count).reduce((sum, value) => sum + value, 0) / count;
  let squares = 0;
  for (let from = 0; from < y.length; from += whole) {
    const level = mean(from, whole);
    for (let part = from; part < from + whole; part += size) squares += (mean(part, size) - level) ** 2;
  }
  return squares;
}

describe("a trial so large that the search starts from a part of it", () => {
  const columns = nested();
  const fit = fitted(columns, { random: ["outing", "grower"] });

  it("takes few passes over all growers", () => {
    expect(fit.startEvaluations).toBeGreaterThan(0);
    expect(fit.evaluations).toBeLessThan(12);
    expect(fit.converged).toBe(true);
  });

  it("finds the variances of the balanced nested analysis of variance, which REML equals there", () => {
    // Searle, Casella & McCulloch (1992), Variance Components, §4.8 (from memory): equate mean squares.
    const y = columns.outcome;
    const [perGrower, n] = [OUTINGS * BOXES, y.length];
    const boxes = squaresBetween(y, 1, BOXES) / (GROWERS * OUTINGS * (BOXES - 1));
    const outings = (BOXES * squaresBetween(y, BOXES, perGrower)) / (GROWERS * (OUTINGS - 1));
    const growers = (perGrower * squaresBetween(y, perGrower, n)) / (GROWERS - 1);
    expect(fit.variance.residual! / boxes).toBeCloseTo(1, 6);
    expect(fit.variance.outing! / ((outings - boxes) / BOXES)).toBeCloseTo(1, 6);
    expect(fit.variance.grower! / ((growers - outings) / perGrower)).toBeCloseTo(1, 6);
    // The mean's variance rests on the growers' mean square alone, and so do its df.
    const mean = cellMean(fit, "b", "a");
    if (!mean.estimable) throw new Error(mean.reason);
    expect(mean.se ** 2 / (growers / n)).toBeCloseTo(1, 6);
    expect(mean.df / (GROWERS - 1)).toBeCloseTo(1, 3);
  });
});
