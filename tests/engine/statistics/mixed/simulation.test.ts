import { describe, expect, it } from "vitest";
import { simulateMixed } from "./simulation";

/*
 * Seeded and short; `tests/simulation` has the long runs. Bounds are the claims (false alarms at most 7 %, 95 %
 * intervals 93–97 %, the true difference at least 92 %) widened by three Monte Carlo errors.
 */
const RUNS = 100;

describe("on unbalanced null trials of ordinal growth with lost boxes", () => {
  it.each([
    { growers: 20, growerArmSd: 0.6, poorerWithoutLast: 0.6 },
    { growers: 30, growerArmSd: 0 },
  ])(
    "$growers growers, grower × arm SD $growerArmSd: tests and intervals keep their promise",
    (truth) => {
      const found = simulateMixed({ ...truth, arms: 4 }, RUNS, "promise");
      expect(found.failed).toBe(0);
      expect(found.rejected.share).toBeLessThan(0.07 + 3 * found.rejected.error);
      expect(found.covered.share).toBeGreaterThan(0.93 - 3 * found.covered.error);
      expect(Math.abs(found.predicted.share - 0.95)).toBeLessThan(0.02 + 3 * found.predicted.error);
      expect(found.trueDifference.share).toBeGreaterThan(0.92 - 3 * found.trueDifference.error);
    },
    60_000,
  );

  it("a model without grower × arm sees differences where there are none", () => {
    const truth = { growers: 20, arms: 4, growerArmSd: 0.6 };
    const { rejected } = simulateMixed(truth, 3 * RUNS, "left out", { random: ["outing", "grower"] });
    expect(rejected.share).toBeGreaterThan(0.07 + 3 * rejected.error);
  }, 60_000);
});
