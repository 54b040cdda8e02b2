import { describe, expect, it } from "vitest";
import {
  choleskyInPlace,
  inverseOf,
  solveGeneral,
  solveRowsInPlace,
} from "@/lib/engine/statistics/mixed/dense";

/** 1/(i + j + 1). */
function hilbert(n: number): Float64Array {
  return Float64Array.from({ length: n * n }, (_, at) => 1 / (Math.floor(at / n) + (at % n) + 1));
}

/** The inverse of the 4 × 4 Hilbert matrix is whole (Choi 1983, Amer. Math. Monthly 90:301–312; from memory). */
const HILBERT_4_INVERSE = [
  16, -120, 240, -140, -120, 1200, -2700, 1680, 240, -2700, 6480, -4200, -140, 1680, -4200, 2800,
];

describe("small dense matrices", () => {
  it("inverts the Hilbert matrix; its determinant is 1/6048000", () => {
    const { inverse, logDeterminant } = inverseOf(hilbert(4), 4)!;
    HILBERT_4_INVERSE.forEach((whole, at) => {
      expect(inverse[at]! / whole).toBeCloseTo(1, 9);
    });
    expect(logDeterminant).toBeCloseTo(-Math.log(6048000), 9);
  });

  it("solves with the factor, row by row", () => {
    const l = hilbert(4);
    choleskyInPlace(l, 4, 4);
    const rows = Float64Array.of(1, 0, 0, 0, 0, 0, 1, 0);
    solveRowsInPlace(l, rows, 2, 4);
    [...HILBERT_4_INVERSE.slice(0, 4), ...HILBERT_4_INVERSE.slice(8, 12)].forEach((whole, at) => {
      expect(rows[at]! / whole).toBeCloseTo(1, 9);
    });
  });

  it("solves a general system that needs its rows swapped", () => {
    // 2y = 4, x + y + z = 6, 3x − z = 0.
    const found = solveGeneral(Float64Array.of(0, 2, 0, 1, 1, 1, 3, 0, -1), Float64Array.of(4, 6, 0), 3)!;
    expect([...found].map((value) => Math.round(value * 1e12) / 1e12)).toEqual([1, 2, 3]);
  });

  it("says so when there is no inverse", () => {
    const rankOne = Float64Array.of(1, 2, 2, 4);
    expect(inverseOf(rankOne, 2)).toBeNull();
    expect(solveGeneral(rankOne, Float64Array.of(1, 1), 2)).toBeNull();
    expect(choleskyInPlace(Float64Array.of(1, 2, 2, 1), 2, 2)).toBeNaN();
  });
});
