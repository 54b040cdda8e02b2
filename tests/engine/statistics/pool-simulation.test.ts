import { describe, expect, it } from "vitest";
import { type SimulatedShare, simulateCoverage, simulateRankSize } from "./pool-simulation";

/*
 * The short form of tests/simulation/pool-size.ts. Bounds are those promised, widened by three Monte Carlo errors of
 * these very runs, so that a seed change does not fail a sound method and an unsound one still fails.
 */
const ALLOWED_ERRORS = 3;

function expectWithin({ share, monteCarloError }: SimulatedShare, from: number, to: number): void {
  expect(share).toBeLessThanOrEqual(to + ALLOWED_ERRORS * monteCarloError);
  expect(share).toBeGreaterThanOrEqual(from - ALLOWED_ERRORS * monteCarloError);
}

describe("the rank test on null trials, unbalanced, several outings a grower, grower × arm SD 0.6", () => {
  it("keeps its size by permutation with 12 growers, where the plain form does not", () => {
    const { plain, clustered } = simulateRankSize({ growers: 12, arms: 4, growerArmSd: 0.6 }, 600, "size 12");
    expectWithin(clustered, 0, 0.07);
    // Else the check could not tell a clustered test from an unclustered one.
    expect(plain.share - ALLOWED_ERRORS * plain.monteCarloError).toBeGreaterThan(0.07);
  });

  it.each([25, 40])("keeps its size by Hotelling's T² with %i growers, without being idle", (growers) => {
    const { clustered } = simulateRankSize({ growers, arms: 4, growerArmSd: 0.6 }, 600, `size ${growers}`);
    expectWithin(clustered, 0.03, 0.07);
  });

  it("finds a real difference", () => {
    const trial = { growers: 30, arms: 4, growerArmSd: 0.6, armEffects: [-0.5, 0, 0, 0.5] };
    expect(simulateRankSize(trial, 100, "power").clustered.share).toBeGreaterThan(0.6);
  });
});

describe("95 % intervals on ordinal growth, unequal groups, 8 % lost, grower × arm SD 0.6", () => {
  const trial = { growers: 50, arms: 4, growerArmSd: 0.6, armEffects: [-0.4, 0, 0.3, 0.6] };
  const coverage = simulateCoverage(trial, 300, "coverage 50");

  it("hold the mean over growers in 93–97 % of cells", () => {
    expectWithin(coverage.mean, 0.93, 0.97);
  });

  it("hold the clean-take share and the loss in 93 % of cells or more", () => {
    expectWithin(coverage.cleanTake, 0.93, 1);
    expectWithin(coverage.loss, 0.93, 1);
  });
});
