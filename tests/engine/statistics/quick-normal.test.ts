import { describe, expect, it } from "vitest";
import { normalUpperTail } from "@/lib/engine/statistics/distributions";
import { quickNormalQuantile } from "@/lib/engine/statistics/quick-normal";

describe("quickNormalQuantile", () => {
  // Reference: the standard normal's tail by @stdlib/math-base-special-erfc, whose inverse this is.
  it("leaves the share it was asked for below and above", () => {
    const tails = Array.from({ length: 91 }, (_, i) => 10 ** (-1 - i / 10));
    const middle = Array.from({ length: 499 }, (_, i) => (i + 1) / 1000);
    for (const p of [...tails, ...middle]) {
      const x = quickNormalQuantile(p);
      // A relative error e of x makes one of about x²e in the share.
      expect(Math.abs(normalUpperTail(-x) / p - 1), `at ${p}`).toBeLessThan(1e-15 * (5 + x * x));
      expect(Math.abs(quickNormalQuantile(1 - p) + quickNormalQuantile(1 - (1 - p)))).toBeLessThan(1e-14);
    }
  });

  it("stays finite at the ends", () => {
    const farthest = quickNormalQuantile(1 - 1e-10);
    for (const p of [0, 1e-300, 1e-11]) expect(quickNormalQuantile(p)).toBeCloseTo(-farthest, 6);
    expect(quickNormalQuantile(1)).toBe(-quickNormalQuantile(0));
  });
});
