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

  it("refuses a probability outside 0–1", () => {
    expect(() => normalQuantile(0)).toThrow(RangeError);
    expect(() => normalQuantile(1)).toThrow(RangeError);
  });
});
