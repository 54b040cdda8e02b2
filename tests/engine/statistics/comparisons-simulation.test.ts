import { describe, expect, it } from "vitest";
import {
  simulateCleanTake,
  simulateLogitInteraction,
  simulateLossTest,
  simulateOddsRatio,
} from "./clean-simulation";
import { simulateBestCalibration, simulateCrossover, simulateFamilies } from "./comparisons-simulation";
import type { SimulatedShare } from "./pool-simulation";

/*
 * The short form of tests/simulation/comparisons-size.ts. Bounds are those promised, widened by three Monte Carlo
 * errors of these very runs, so that a seed change does not fail a sound method and an unsound one still fails.
 */
const ALLOWED_ERRORS = 3;

function expectWithin({ share, monteCarloError }: SimulatedShare, from: number, to: number): void {
  expect(share).toBeLessThanOrEqual(to + ALLOWED_ERRORS * monteCarloError);
  expect(share).toBeGreaterThanOrEqual(from - ALLOWED_ERRORS * monteCarloError);
}

describe("families of comparisons on unequal groups", () => {
  it("hold all their truths at once in 95 % of trials", () => {
    const groups = { boxes: [4, 9, 22], means: [2, 2.4, 2.4] };
    const { tukey, dunnett, hsu, bestExcluded } = simulateFamilies(groups, 120, "families");
    expectWithin(dunnett, 0.93, 0.97);
    // Tukey–Kramer and Hsu's constrained intervals are conservative away from equal groups and equal means.
    expectWithin(tukey, 0.93, 1);
    expectWithin(hsu, 0.93, 1);
    expectWithin(bestExcluded, 0, 0.05);
  }, 60_000);
});

describe("chances to be the best", () => {
  it("come true as often as claimed, in bins and for the leader, effects of SD .1–.5", () => {
    const { bins, leader } = simulateBestCalibration(150, "calibration");
    for (const bin of [...bins, leader]) {
      expect(Math.abs(bin.true - bin.claimed)).toBeLessThan(ALLOWED_ERRORS * bin.monteCarloError + 0.02);
    }
    expect(bins.length).toBeGreaterThanOrEqual(8);
  }, 60_000);
});

describe("the crossover test", () => {
  it("keeps its size where it is least favoured and finds a planted crossover", () => {
    expectWithin(simulateCrossover([3, 0, 0, 0], 1500, "boundary"), 0.03, 0.07);
    expectWithin(simulateCrossover([0.5, 0.5, 0.5, 0.5], 1500, "one side"), 0, 0.05);
    expect(simulateCrossover([1, 0.8, -1, -1.2], 300, "planted").share).toBeGreaterThan(0.6);
  });
});

describe("arm × band on the cumulative-logit scale", () => {
  it("keeps its size where strong effects and shifted groups add up below the ceiling of growth", () => {
    const trial = { growers: 50, arms: 4, growerArmSd: 0.3, armEffects: [-0.8, 0, 0.6, 1.4] };
    expectWithin(simulateLogitInteraction(trial, 300, "additive"), 0.03, 0.07);
  });
});

describe("clean take within outings, several outings a grower, grower × arm SD 0.6", () => {
  const trial = { arms: 4, growerArmSd: 0.6 };

  it.each([12, 25, 50])("keeps its size with %i growers", (growers) => {
    const alarms = simulateCleanTake({ ...trial, growers }, 500, `clean ${growers}`);
    expectWithin(alarms.difference, growers < 20 ? 0 : 0.03, 0.07);
    expectWithin(alarms.conditional, 0.03, 0.07);
  });

  it("bounds the odds ratio honestly where it isn't 1", () => {
    const planted = { ...trial, growers: 30, armEffects: [0.5, -0.3, 0, 0] };
    expectWithin(simulateOddsRatio(planted, 500, "odds ratio"), 0.93, 0.97);
  });

  it("is needed: outings taken as independent raise false alarms", () => {
    const { byOuting } = simulateCleanTake({ ...trial, growers: 50 }, 500, "clean 50");
    expect(byOuting.share - ALLOWED_ERRORS * byOuting.monteCarloError).toBeGreaterThan(0.05);
  });

  it("finds a real difference", () => {
    const alarms = simulateCleanTake(
      { ...trial, growers: 50, armEffects: [0.8, -0.4, 0, 0] },
      100,
      "clean power",
    );
    expect(alarms.difference.share).toBeGreaterThan(0.6);
    expect(alarms.conditional.share).toBeGreaterThan(0.6);
  });
});

describe("loss by arm where growers lose at different rates", () => {
  const trial = { arms: 4, growerArmSd: 0.6, growerLossSd: 0.6 };

  it.each([12, 25, 50])("keeps its size with %i growers", (growers) => {
    expectWithin(simulateLossTest({ ...trial, growers }, 500, `loss ${growers}`).clustered, 0, 0.07);
  });

  it("finds a planted difference: one recipe lost three times as often", () => {
    const planted = { ...trial, growers: 50, armLossShares: [0.3, 0.1, 0.1, 0.1] };
    expect(simulateLossTest(planted, 100, "loss planted").clustered.share).toBeGreaterThan(0.6);
  });
});
