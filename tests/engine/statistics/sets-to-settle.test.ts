import { describe, expect, it } from "vitest";
import { setsToSettle } from "@/lib/engine/statistics/sets-to-settle";

describe("how many more sets would settle a comparison", () => {
  /**
   * NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.2.2 ("Sample sizes required"): the number needed goes with
   * the inverse square of the difference to be told from 0, so half the width takes four times the number. From memory.
   */
  it("takes three times as many again to halve the interval", () => {
    expect(setsToSettle({ difference: 0.5, lower: -0.5, upper: 1.5 }, 30, null)).toBe(90);
  });

  it("knows the nearer way out: superiority for a large difference, equivalence for a small one", () => {
    const superior = setsToSettle({ difference: 0.6, lower: -0.3, upper: 1.5 }, 40, 0.5)!;
    expect(superior).toBe(Math.ceil(40 * ((0.9 / 0.6) ** 2 - 1)));
    const equivalent = setsToSettle({ difference: 0, lower: -0.75, upper: 0.75 }, 40, 0.5)!;
    expect(equivalent).toBe(50);
  });

  it("doesn't depend on which recipe stands first", () => {
    const one = setsToSettle({ difference: 0.2, lower: -0.6, upper: 1 }, 17, 0.5);
    expect(setsToSettle({ difference: -0.2, lower: -1, upper: 0.6 }, 17, 0.5)).toBe(one);
  });

  it("asks for at least one more while open, none when settled, and foresees nothing for no difference without a margin", () => {
    expect(setsToSettle({ difference: 0.5, lower: 0, upper: 1 }, 20, null)).toBe(1);
    expect(setsToSettle({ difference: 1, lower: 0.5, upper: 1.5 }, 20, 0.5)).toBe(0);
    expect(setsToSettle({ difference: 0, lower: -1, upper: 1 }, 20, null)).toBeNull();
  });
});
