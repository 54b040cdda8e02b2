import { describe, expect, it } from "vitest";
import { signFlipTest } from "@/lib/engine/statistics/sign-flips";

const PERMUTATIONS = 20_000;
const ALONG = [1.2, -0.4, 2.1, 0.7, -0.9, 1.6, 0.3, -0.2, 1.1, 0.8, -1.3, 0.5];
const ACROSS = [0.3, 0.8, -0.5, 1.1, 0.2, -0.7, 0.9, 0.1, -0.3, 1.4, 0.6, -0.2];

function expectNear(p: number, exact: number): void {
  const error = Math.sqrt((exact * (1 - exact)) / PERMUTATIONS);
  expect(Math.abs(p - exact)).toBeLessThan(4 * error + 1 / PERMUTATIONS);
}

describe("flips of signs", () => {
  it("come to the exact p of R's coin 1.4.2", () => {
    // pvalue(symmetry_test(y ~ side | pair, distribution = exact())), y = (max(x, 0), max(−x, 0)).
    const p = signFlipTest(Float64Array.from(ALONG), 1, { seed: "one", permutations: PERMUTATIONS });
    expectNear(p, 0.15234375);
  });

  it("come to the share of all 4,096 flips of pairs of numbers", () => {
    const vectors = Float64Array.from(ALONG.flatMap((x, i) => [x, ACROSS[i]!]));
    // By R 4.2.2: mean(apply(expand.grid(±1 …), 1, S) >= S(1, …, 1)), S the sum's form by solve(crossprod(X)).
    expectNear(signFlipTest(vectors, 2, { seed: "two", permutations: PERMUTATIONS }), 0.05810546875);
  });

  it("don't depend on the scale of a number, nor on one that says nothing new", () => {
    const options = { seed: "three", permutations: 999 };
    const p = signFlipTest(Float64Array.from(ALONG.flatMap((x, i) => [x, ACROSS[i]!])), 2, options);
    const scaled = ALONG.flatMap((x, i) => [x, 1000 * ACROSS[i]!]);
    expect(signFlipTest(Float64Array.from(scaled), 2, options)).toBe(p);
    const doubled = ALONG.flatMap((x, i) => [x, ACROSS[i]!, x - ACROSS[i]!]);
    expect(signFlipTest(Float64Array.from(doubled), 3, options)).toBeCloseTo(p, 2);
  });
});
