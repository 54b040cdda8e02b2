import { describe, expect, test } from "vitest";
import {
  connectedParts,
  gainFunction,
  informationMatrix,
  precisionAfter,
} from "@/lib/engine/design/information";
import { addToTally, emptyTally } from "@/lib/engine/design/tally";
import { seededSource } from "@/lib/engine/random/source";
import { symmetricEigen } from "@/lib/engine/statistics/symmetric";

const tallyOf = (v: number, blocks: readonly (readonly number[])[]) =>
  blocks.reduce((sum, block) => addToTally(sum, v, block), emptyTally());

/** Eigenvalues of the information matrix, the smallest (zero, of the constant) left out. */
function contrastEigenvalues(v: number, blocks: readonly (readonly number[])[]): number[] {
  const c = informationMatrix(tallyOf(v, blocks), v);
  const rows = Array.from({ length: v }, (_, i) => [...c.slice(i * v, (i + 1) * v)]);
  return [...symmetricEigen(rows).values].sort((a, b) => a - b).slice(1);
}

describe("the information matrix", () => {
  test("of the balanced design of 7 arms in 7 blocks of 3 has the eigenvalue λv/k = 7/3 six times", () => {
    // The projective plane of order 2; balanced designs: Cochran & Cox 1957, Experimental Designs, ch. 11 (from memory).
    const fano = [0, 1, 2, 3, 4, 5, 6].map((i) => [i, (i + 1) % 7, (i + 3) % 7]);
    for (const value of contrastEigenvalues(7, fano)) expect(value).toBeCloseTo(7 / 3, 12);
  });

  test("of the cyclic design of 12 arms from the block (0, 1, 3, 7) gives average efficiency .8133802817", () => {
    // Another implementation's figure, to ten digits; cyclic designs: John & Williams 1995 (from memory).
    const cyclic = Array.from({ length: 12 }, (_, i) => [0, 1, 3, 7].map((arm) => (arm + i) % 12));
    const inverseSum = contrastEigenvalues(12, cyclic).reduce((sum, value) => sum + 1 / value, 0);
    expect(11 / (4 * inverseSum)).toBeCloseTo(0.8133802817, 9);
  });

  test("of blocks with repeated arms is Σ (diag n − nn′/k), as computed entry by entry", () => {
    const random = seededSource("repeats");
    const blocks = Array.from({ length: 20 }, () =>
      Array.from({ length: 2 + random.below(6) }, () => random.below(5)),
    );
    const expected = new Float64Array(25);
    for (const block of blocks) {
      const n = [0, 1, 2, 3, 4].map((arm) => block.filter((other) => other === arm).length);
      for (let i = 0; i < 5; i++) {
        expected[i * 6]! += n[i]!;
        for (let j = 0; j < 5; j++) expected[i * 5 + j]! -= (n[i]! * n[j]!) / block.length;
      }
    }
    for (const [at, value] of informationMatrix(tallyOf(5, blocks), 5).entries()) {
      expect(value).toBeCloseTo(expected[at]!, 10);
    }
  });
});

describe("a block's gain", () => {
  test("is the fall of the spread that adding the block brings, repeated arms included", () => {
    const random = seededSource("gain");
    for (let trial = 0; trial < 200; trial++) {
      const v = 2 + random.below(23);
      const someBlock = () => Array.from({ length: 2 + random.below(11) }, () => random.below(v));
      const before = tallyOf(v, Array.from({ length: random.below(30) }, someBlock));
      const block = someBlock();
      const precision = precisionAfter(before, v);
      const after = precisionAfter(addToTally(before, v, block), v);
      const fall = ((before.draws + 1) * (precision.spread - after.spread)) / precision.spread;
      // Rounding only: both sides come from inverses of matrices with condition numbers far below 1e6.
      expect(gainFunction(precision, v, block.length)(block)).toBeCloseTo(fall, 8);
    }
  });

  test("is largest where it joins parts", () => {
    const precision = precisionAfter(
      tallyOf(4, [
        [0, 1],
        [2, 3],
        [0, 1],
      ]),
      4,
    );
    const gain = gainFunction(precision, 4, 2);
    expect(gain([1, 2])).toBeGreaterThan(3 * gain([2, 3]));
    expect(gain([2, 3])).toBeGreaterThan(gain([0, 1]));
    expect(gain([1, 1])).toBeCloseTo(0, 12);
  });
});

test("parts are the arms that chains of blocks join", () => {
  expect(connectedParts(emptyTally(), 3)).toEqual([0, 1, 2]);
  expect(
    connectedParts(
      tallyOf(6, [
        [5, 3],
        [1, 4],
        [3, 1],
      ]),
      6,
    ),
  ).toEqual([0, 1, 2, 1, 1, 1]);
  expect(
    connectedParts(
      tallyOf(4, [
        [0, 0],
        [1, 2, 2],
      ]),
      4,
    ),
  ).toEqual([0, 1, 1, 3]);
});
