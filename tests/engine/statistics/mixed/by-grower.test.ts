import { describe, expect, it } from "vitest";
import { growerDifferences } from "@/lib/engine/statistics/mixed/grower-differences";
import { looTable } from "@/lib/engine/statistics/mixed/leave-one-out";
import { columnsOf } from "./columns-of";
import { fitted, reference } from "./reference";

/** R's variances and ours differ in the seventh digit; so may what is made of them. */
const DIGITS = 6;

describe.each(reference.byGrower)("by grower, against R (generate.R): $name", ({ data, ...expected }) => {
  const fit = fitted(columnsOf(data));
  const others = expected.others.map((arm) => [
    { band: "1", arm: String(arm), weight: 1 },
    { band: "1", arm: String(data.arm[firstCell(data)]), weight: -1 },
  ]);

  it("leaves each grower out as lme4 does at the same variances", () => {
    const { growers, estimates } = looTable(fit, others);
    expected.growers.forEach((grower, i) => {
      const row = growers.indexOf(String(grower));
      expected.without[i]!.forEach((difference, k) => {
        const found = estimates[row * others.length + k]!;
        if (difference === null) expect(found).toBeNaN();
        else expect(found).toBeCloseTo(difference, DIGITS);
      });
    });
  });

  it("shares out a contrast's information among growers", () => {
    const { growers, shares } = looTable(fit, others);
    others.forEach((_, k) => {
      const total = growers.reduce((sum, _, row) => sum + shares[row * others.length + k]!, 0);
      expect(total).toBeCloseTo(1, 10);
    });
  });

  it("gives each grower's own and predicted difference with their standard errors", () => {
    const found = growerDifferences(fit, "1", "1", "2");
    if (typeof found === "string") throw new Error(found);
    expect(found).toHaveLength(expected.differences.length);
    for (const { grower, ...difference } of expected.differences) {
      const own = found.find((candidate) => candidate.grower === String(grower))!;
      expect(own.own).toBeCloseTo(difference.own, DIGITS);
      expect(own.ownSe).toBeCloseTo(difference.ownSe, DIGITS);
      expect(own.predicted).toBeCloseTo(difference.predicted, DIGITS);
      expect(own.predictedSe).toBeCloseTo(difference.predictedSe, DIGITS);
    }
  });
});

/** A box of band 1's first arm. */
function firstCell(data: { readonly band: number[]; readonly arm: number[] }): number {
  const arms = data.arm.filter((_, i) => data.band[i] === 1);
  return data.arm.indexOf(Math.min(...arms));
}
