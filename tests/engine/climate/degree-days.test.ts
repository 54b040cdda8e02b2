import { describe, expect, it } from "vitest";
import { degreeDays } from "@/lib/engine/climate/degree-days";
import { readinessFromMean } from "@/lib/engine/climate/readiness";
import { readFixture, seededUniform } from "./helpers";

describe("degreeDays", () => {
  it.each(readFixture("degree_days.csv"))("$tmin to $tmax °C above $lower is $dd_single_sine", (row) => {
    const upper = row["upper(horizontal)"];
    const limits = { baseC: Number(row.lower), upperC: upper === "" ? null : Number(upper) };
    const decimals = (row.dd_single_sine!.split(".")[1] ?? "").length;
    const rounding = 0.5 * 10 ** -Math.max(decimals, 2);
    const value = degreeDays({ minC: Number(row.tmin), maxC: Number(row.tmax) }, limits);
    expect(Math.abs(value - Number(row.dd_single_sine))).toBeLessThanOrEqual(rounding + 1e-9);
  });

  it("equals the integral of a clipped sine, base 5 and cut-off 35 °C by default", () => {
    const uniform = seededUniform(1969);
    const steps = 20_000;
    for (let i = 0; i < 50; i++) {
      const minC = -15 + 45 * uniform();
      const maxC = minC + 25 * uniform();
      let integral = 0;
      for (let s = 0; s < steps; s++) {
        const t = (minC + maxC) / 2 + ((maxC - minC) / 2) * Math.sin((2 * Math.PI * (s + 0.5)) / steps);
        integral += (Math.min(Math.max(t, 5), 35) - 5) / steps;
      }
      // The midpoint rule with 20,000 steps is good to about 1e-6 here.
      expect(Math.abs(degreeDays({ minC, maxC }) - integral)).toBeLessThan(1e-5);
    }
  });

  it("never falls when a day warms, and stops at 30 a day", () => {
    let before = 0;
    for (let minC = -20; minC <= 50; minC += 0.25) {
      const value = degreeDays({ minC, maxC: minC + 8 });
      expect(value).toBeGreaterThanOrEqual(before - 1e-12);
      before = value;
    }
    expect(before).toBe(30);
  });

  it("refuses a minimum above the maximum and limits the wrong way round", () => {
    expect(() => degreeDays({ minC: 12, maxC: 11 })).toThrow(RangeError);
    expect(() => degreeDays({ minC: 0, maxC: Number.POSITIVE_INFINITY })).toThrow(RangeError);
    expect(() => degreeDays({ minC: 0, maxC: 10 }, { baseC: 10, upperC: 10 })).toThrow(/upper limit/);
  });
});

describe("readiness", () => {
  // University of Hawaiʻi CTAHR, BIO-9 (2008): 4–5 days near 20 °C, 3–4 days above.
  it("keeps the published rule: days 4–5 at 20 °C, 3–4 at 25 °C", () => {
    expect(readinessFromMean(20)).toEqual({ ok: true, earliestDay: 4, likelyDay: 5 });
    expect(readinessFromMean(25)).toEqual({ ok: true, earliestDay: 3, likelyDay: 4 });
  });

  it("never comes within the first day, when nothing shows yet (common practice, no source)", () => {
    for (let meanC = 6; meanC <= 60; meanC++) {
      const readiness = readinessFromMean(meanC);
      expect(readiness.ok && readiness.earliestDay > 1 && readiness.likelyDay >= readiness.earliestDay).toBe(
        true,
      );
    }
  });

  it("is refused where it is too cold to grow", () => {
    expect(readinessFromMean(5)).toEqual({ ok: false, reason: "TOO_COLD" });
    expect(readinessFromMean(5.1)).toMatchObject({ ok: true });
  });
});
