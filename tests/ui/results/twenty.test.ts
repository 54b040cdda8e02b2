import { describe, expect, it } from "vitest";
import { twentyDots } from "@/lib/ui/results/twenty";

describe("twenty dots for chances", () => {
  it("deals out whole dots, then the largest remainders", () => {
    expect(twentyDots([0.65, 0.3, 0.05])).toEqual([13, 6, 1]);
    // Shares 6.6, 6.7, 6.7: six each, the two left over go to the larger remainders.
    expect(twentyDots([0.33, 0.335, 0.335])).toEqual([6, 7, 7]);
  });

  it("always deals twenty, none of them more than one dot from its share", () => {
    for (let recipes = 1; recipes <= 24; recipes++) {
      const raw = Array.from({ length: recipes }, (_, i) => 1 / (i + 1.3));
      const total = raw.reduce((sum, one) => sum + one, 0);
      const dots = twentyDots(raw);
      expect(dots.reduce((sum, one) => sum + one, 0)).toBe(20);
      for (const [i, own] of dots.entries()) expect(Math.abs(own - (20 * raw[i]!) / total)).toBeLessThan(1);
    }
  });

  it("deals none where there is no chance to deal by", () => {
    expect(twentyDots([0, 0])).toEqual([0, 0]);
  });
});
