import { expect, it } from "vitest";
import { EXPOSURE_DAYS, exposureOf } from "@/lib/engine/climate/exposure";

// A day from 15 to 25 °C lies wholly between 5 and 35 °C: its degree-days are its mean less 5, so 15 (Baskerville & Emin
// 1969; the same as the row tmax 25, tmin 15, base 10 of the climate fixtures, five degrees lower).
const day = { minC: 15, maxC: 25, rainMm: 2.5 };
const window = Array.from({ length: EXPOSURE_DAYS }, () => day);

it("adds up five days, and their rain where all of it is known", () => {
  expect(exposureOf(window)).toEqual({ meanC: 20, degreeDays: 75, rainMm: 12.5 });
  expect(exposureOf([...window.slice(1), { ...day, rainMm: null }])!.rainMm).toBeNull();
});

it("counts by the sine what a mean would miss: nights below 5 °C take nothing away", () => {
  const cold = { minC: 0, maxC: 10, rainMm: null };
  // Mean 5, amplitude 5: the part above 5 °C is 5/π.
  expect(exposureOf(window.map(() => cold))!.degreeDays).toBeCloseTo((5 * 5) / Math.PI, 10);
});

it("says nothing unless every day is known", () => {
  expect(exposureOf(window.slice(1))).toBeNull();
  expect(exposureOf([null, ...window.slice(1)])).toBeNull();
});
