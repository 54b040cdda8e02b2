import { describe, expect, it } from "vitest";
import { seededSource } from "@/lib/engine/random/source";
import {
  generalisedInverse,
  generalisedQuadraticForm,
  symmetricEigen,
} from "@/lib/engine/statistics/symmetric";
import { reference } from "./reference";

type Matrix = readonly (readonly number[])[];
const product = (a: Matrix, b: Matrix): number[][] =>
  a.map((row) => b[0]!.map((_, j) => row.reduce((sum, x, k) => sum + x * b[k]![j]!, 0)));

function expectClose(a: Matrix, b: Matrix): void {
  a.forEach((row, i) => {
    row.forEach((x, j) => {
      expect(x).toBeCloseTo(b[i]![j]!, 10);
    });
  });
}

describe("symmetricEigen", () => {
  it("finds R's eigenvalues", () => {
    const values = [...symmetricEigen(reference.eigen.matrix).values].sort((a, b) => a - b);
    values.forEach((value, i) => {
      expect(value).toBeCloseTo(reference.eigen.values[i]!, 12);
    });
  });

  it("gives vectors that are turned into themselves times their value", () => {
    const { values, vectors } = symmetricEigen(reference.eigen.matrix);
    expectClose(
      product(vectors, reference.eigen.matrix),
      vectors.map((vector, j) => vector.map((x) => x * values[j]!)),
    );
  });

  it("refuses what is not finite", () => {
    expect(() => symmetricEigen([[Number.NaN]])).toThrow(/not a finite number/);
  });
});

describe("the generalised inverse", () => {
  // A 6 × 6 matrix of rank 3: B B′ of a random 6 × 3 matrix.
  const source = seededSource("generalised inverse");
  const b = Array.from({ length: 6 }, () => Array.from({ length: 3 }, () => source.unit() - 0.5));
  const a = b.map((row) => b.map((other) => row.reduce((sum, x, k) => sum + x * other[k]!, 0)));
  const inverse = generalisedInverse(a);

  it("meets Penrose's conditions (1955, Proc. Camb. Phil. Soc. 51:406–413)", () => {
    expectClose(product(product(a, inverse), a), a);
    expectClose(product(product(inverse, a), inverse), inverse);
    const projection = product(a, inverse);
    expectClose(
      projection,
      projection.map((_, i) => projection.map((row) => row[i]!)),
    );
  });

  it("knows the rank, and whether a vector lies in the range", () => {
    const inside = a[2]!;
    const form = generalisedQuadraticForm(inside, a);
    expect(form.rank).toBe(3);
    expect(form.inRange).toBe(true);
    // x = A e₃, so x′A⁻x = e₃′A e₃.
    expect(form.value).toBeCloseTo(a[2]![2]!, 10);
    expect(generalisedQuadraticForm([1, 0, 0, 0, 0, 0], a).inRange).toBe(false);
  });

  it("gives a zero matrix rank 0", () => {
    expect(
      generalisedQuadraticForm(
        [0, 0],
        [
          [0, 0],
          [0, 0],
        ],
      ),
    ).toEqual({ value: 0, rank: 0, inRange: true });
  });
});
