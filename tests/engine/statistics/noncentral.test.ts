import { describe, expect, it } from "vitest";
import { fUpperTail, tUpperTail } from "@/lib/engine/statistics/distributions";
import { noncentralFUpperTail, noncentralTUpperTail } from "@/lib/engine/statistics/noncentral";
import { cases } from "../design/planner/reference";
import { relativelyClose } from "./reference";

describe("noncentral t and F", () => {
  // R: integrate() over the denominator, as R's own series for pf stops at 1e-9.
  it.each(cases.noncentralT)("t beyond $t on $df, $ncp", ({ t, df, ncp, upper }) => {
    expect(relativelyClose(noncentralTUpperTail(t, df, ncp), upper, 1e-10)).toBe(true);
  });
  it.each(cases.noncentralF)("F beyond $f on $df1 and $df2, $lambda", ({ f, df1, df2, lambda, upper }) => {
    expect(relativelyClose(noncentralFUpperTail(f, df1, df2, lambda), upper, 1e-10)).toBe(true);
  });

  // R 4.2.2 pf and pt themselves; pf is good to 1e-9.
  it("agrees with pf and pt", () => {
    expect(1 - noncentralFUpperTail(3, 3, 20, 5)).toBeCloseTo(0.6136366012, 8);
    expect(1 - noncentralFUpperTail(2.5, 11, 45, 12)).toBeCloseTo(0.6874750921, 8);
    expect(1 - noncentralTUpperTail(2, 20, 1.5)).toBeCloseTo(0.6746299141, 9);
  });

  it("is the central one at 0, and turns over with the sign", () => {
    expect(noncentralTUpperTail(1.3, 8, 0)).toBeCloseTo(tUpperTail(1.3, 8), 14);
    expect(noncentralFUpperTail(2.1, 4, 9, 0)).toBeCloseTo(fUpperTail(2.1, 4, 9), 14);
    expect(noncentralTUpperTail(-1.3, 8, 0.9)).toBeCloseTo(1 - noncentralTUpperTail(1.3, 8, -0.9), 14);
  });

  it("keeps the digits of a far tail", () => {
    // Both tails of t² are the F on 1 and df: the near one is all of it here.
    const t = noncentralTUpperTail(14, 25, 1) + noncentralTUpperTail(14, 25, -1);
    expect(relativelyClose(t, noncentralFUpperTail(196, 1, 25, 1), 1e-9)).toBe(true);
    expect(t).toBeLessThan(1e-10);
    expect(t).toBeGreaterThan(0);
  });

  it("refuses no degrees of freedom and a negative noncentrality", () => {
    expect(() => noncentralTUpperTail(1, 0, 1)).toThrow(RangeError);
    expect(() => noncentralFUpperTail(1, 2, 0, 1)).toThrow(RangeError);
    expect(() => noncentralFUpperTail(1, 2, 3, -1)).toThrow(RangeError);
  });
});
