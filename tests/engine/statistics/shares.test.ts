import { describe, expect, it } from "vitest";
import { normalQuantile, tQuantile } from "@/lib/engine/statistics/distributions";
import { cleanTakeShare, lossShare, wilsonInterval } from "@/lib/engine/statistics/shares";
import type { PoolRow } from "@/shared/schemas/pool";
import { tallyOf } from "./pool-simulation";
import { reference } from "./reference";

/** One grower's boxes, each clean (1) or not (0). */
function boxesOf(grower: string, clean: readonly (0 | 1 | null)[]): PoolRow[] {
  return clean.map((value) => ({
    grower,
    outing: grower,
    band: "Cfb",
    arm: "A",
    outcome: 2,
    status: "graded",
    cleanTake: value === null ? null : value === 1,
  }));
}

describe("wilsonInterval", () => {
  // R: prop.test(x, n, correct = FALSE).
  it.each(reference.wilson)("agrees with R for $count of $n", ({ count, n, lower, upper }) => {
    const interval = wilsonInterval(count / n, n, normalQuantile(0.975));
    expect(interval.lower).toBeCloseTo(lower, 12);
    expect(interval.upper).toBeCloseTo(upper, 12);
  });
});

describe("a share by grower", () => {
  it("has no design effect with one box per grower", () => {
    const rows = ["a", "b", "c", "d"].flatMap((grower, i) => boxesOf(grower, [i === 0 ? 1 : 0]));
    const share = cleanTakeShare(tallyOf(rows), 0.95);
    // Σ(x − p)² / (G(G − 1)) over p(1 − p)/n is G/(G − 1) = 4/3 here, by hand: the usual small-sample factor.
    expect(share.designEffect).toBeCloseTo(4 / 3, 12);
    expect(share).toMatchObject({ share: 0.25, count: 1, boxes: 4, growers: 4, df: 3 });
  });

  it("counts growers rather than boxes where each grower's boxes are all alike", () => {
    const rows = ["a", "b", "c", "d", "e", "f"].flatMap((grower, i) =>
      boxesOf(grower, i < 2 ? [1, 1, 1, 1, 1] : [0, 0, 0, 0, 0]),
    );
    const share = cleanTakeShare(tallyOf(rows), 0.95);
    // Five alike boxes each: the effect is 5 · G/(G − 1) = 6, so 30 boxes tell as much as 5.
    expect(share.designEffect).toBeCloseTo(6, 12);
    expect(share.effectiveN).toBeCloseTo(5, 12);
    expect(share).toMatchObject(wilsonInterval(1 / 3, share.effectiveN!, tQuantile(0.975, 5)));
  });

  it("never counts more boxes than there are", () => {
    const rows = ["a", "b", "c", "d"].flatMap((grower) => boxesOf(grower, [1, 0]));
    const share = cleanTakeShare(tallyOf(rows), 0.95);
    expect(share.designEffect).toBe(0);
    expect(share.effectiveN).toBe(8);
  });

  it.each([0, 1] as const)("counts one box a grower where all are %i", (value) => {
    const rows = ["a", "b", "c", "d"].flatMap((grower) => boxesOf(grower, [value, value, value]));
    const share = cleanTakeShare(tallyOf(rows), 0.95);
    expect(share).toMatchObject({ share: value, effectiveN: 4, designEffect: null });
    expect(share.warnings).toContain("DESIGN_EFFECT_NOT_ESTIMABLE");
    expect(share.upper! - share.lower!).toBeGreaterThan(0.4);
  });

  it("leaves unknown boxes out, and claims nothing from one grower or none", () => {
    const rows = [...boxesOf("a", [1, 0, null]), ...boxesOf("b", [null])];
    expect(cleanTakeShare(tallyOf(rows), 0.95)).toMatchObject({
      boxes: 2,
      growers: 1,
      share: 0.5,
      lower: null,
      reason: "TOO_FEW_GROWERS",
    });
    expect(cleanTakeShare(tallyOf([]), 0.95)).toMatchObject({ share: null, reason: "NO_BOXES" });
  });

  it("counts losses among all drawn boxes", () => {
    const rows = ["a", "b", "c"].flatMap((grower) => boxesOf(grower, [1, null, 0]));
    const withLost = rows.map((row, i): PoolRow => (i === 4 ? { ...row, status: "lost" } : row));
    expect(lossShare(tallyOf(withLost), 0.95)).toMatchObject({
      count: 1,
      boxes: 9,
      share: 1 / 9,
      growers: 3,
    });
  });
});
