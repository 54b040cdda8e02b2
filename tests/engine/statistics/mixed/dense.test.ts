import { describe, expect, it } from "vitest";
import {
  choleskyInPlace,
  forwardRowsInPlace,
  inverseOf,
  solveGeneral,
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

  it("solves with the factor, row by row: products of what it solves are the inverse's numbers", () => {
    const l = hilbert(4);
    choleskyInPlace(l, 4, 4);
    const rows = Float64Array.from({ length: 16 }, (_, at) => Number(Math.floor(at / 4) === at % 4));
    forwardRowsInPlace(l, rows, 4, 4);
    HILBERT_4_INVERSE.forEach((whole, at) => {
      const [x, y] = [Math.floor(at / 4), at % 4].map((row) => rows.subarray(4 * row, 4 * row + 4));
      expect(x!.reduce((sum, value, k) => sum + value * y![k]!, 0) / whole).toBeCloseTo(1, 9);
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
