import { describe, expect, it } from "vitest";
import {
  chiSquareUpperTail,
  fQuantile,
  fUpperTail,
  normalQuantile,
  normalUpperTail,
  tQuantile,
  tUpperTail,
} from "@/lib/engine/statistics/distributions";
import { reference, relativelyClose } from "./reference";

const tails: Record<string, (x: number, df1: number, df2: number) => number> = {
  t: tUpperTail,
  f: fUpperTail,
  chiSquare: chiSquareUpperTail,
  normal: normalUpperTail,
};
const quantiles: Record<string, (p: number, df1: number, df2: number) => number> = {
  t: tQuantile,
  f: fQuantile,
  normal: normalQuantile,
};

describe("upper tails keep their digits where 1 − cdf is 0", () => {
  // R: pt, pf, pchisq, pnorm with lower.tail = FALSE.
  it.each(reference.tails)("$name at $x is $p", ({ name, x, df1, df2, p }) => {
    expect(relativelyClose(tails[name]!(x, df1!, df2!), p, 1e-11)).toBe(true);
  });
});

describe("quantiles", () => {
  // R: qt, qf, qnorm.
  it.each(reference.quantiles)("$name at p = $p is $x", ({ name, x, df1, df2, p }) => {
    expect(relativelyClose(quantiles[name]!(p, df1!, df2!), x, 1e-12)).toBe(true);
  });

  // R's qf(1e-4, 1, 1000) and qf(.999, 11, 1e6): ends where many implementations fail.
  it("holds at the ends of the F distribution", () => {
    expect(relativelyClose(fQuantile(1e-4, 1, 1000), 1.57158192945e-8, 1e-10)).toBe(true);
    expect(relativelyClose(fQuantile(0.999, 11, 1e6), 2.842225605137, 1e-10)).toBe(true);
  });

  // R 4.2.2's qt, where the series about the normal quantile stands in for the search.
  it.each([
    [0.975, 3000, 1.960755055322458],
    [0.9995, 10_000, 3.2914999659416351],
    [1e-6, 5000, -4.7590379535051008],
    [1 - 1e-10, 10_000, 6.3679413387372286],
    [0.975, 1e6, 1.9599663568141066],
  ])("t at p = %d on %d degrees of freedom is %d", (p, df, t) => {
    // 1 − 1e-10 has only so many digits itself.
    expect(relativelyClose(tQuantile(p, df), t, p > 0.9999 ? 1e-9 : 1e-12)).toBe(true);
  });

  it("refuses a probability outside 0–1", () => {
    expect(() => normalQuantile(0)).toThrow(RangeError);
    expect(() => normalQuantile(1)).toThrow(RangeError);
  });
});
