import { describe, expect, test } from "vitest";
import { addToTally, boxesByArm, emptyTally, sumTallies } from "@/lib/engine/design/tally";
import { seededSource } from "@/lib/engine/random/source";

describe("the tally of earlier draws", () => {
  test("holds Σ n_i n_j by block size, upper triangle row by row: counted by hand", () => {
    // Three arms; blocks {0, 1}, {0, 0, 2} and {1, 2}.
    const tally = [
      [0, 1],
      [0, 0, 2],
      [2, 1],
    ].reduce((sum, block) => addToTally(sum, 3, block), emptyTally());
    expect(tally).toEqual({ draws: 3, blocks: { "2": [1, 1, 0, 2, 1, 1], "3": [4, 0, 2, 0, 0, 1] } });
  });

  test("is the same whatever the order of draws and of boxes, in one piece or summed from parts", () => {
    const random = seededSource("order");
    const blocks = Array.from({ length: 60 }, () =>
      Array.from({ length: 2 + random.below(4) }, () => random.below(6)),
    );
    const tallyOf = (some: readonly number[][]) =>
      some.reduce((sum, block) => addToTally(sum, 6, block), emptyTally());
    const whole = tallyOf(blocks);
    expect(tallyOf(random.shuffle(blocks).map((block) => random.shuffle(block)))).toEqual(whole);
    expect(sumTallies([tallyOf(blocks.slice(0, 17)), emptyTally(), tallyOf(blocks.slice(17))])).toEqual(
      whole,
    );
    expect(sumTallies([])).toEqual(emptyTally());
  });

  test("gives back the boxes of each arm, whatever the sizes of their blocks", () => {
    const blocks = [
      [0, 1, 1],
      [1, 2],
      [0, 0, 3, 3],
    ];
    const tally = blocks.reduce((sum, block) => addToTally(sum, 5, block), emptyTally());
    expect(boxesByArm(tally, 5)).toEqual([3, 3, 1, 2, 0]);
    expect(boxesByArm(emptyTally(), 2)).toEqual([0, 0]);
  });

  test("leaves the tally it was given alone", () => {
    const before = addToTally(emptyTally(), 3, [0, 1]);
    const copy = structuredClone(before);
    addToTally(before, 3, [1, 2]);
    expect(before).toEqual(copy);
  });

  test("refuses an arm that isn't the trial's, and sums over different trials", () => {
    for (const arm of [-1, 3, 1.5]) expect(() => addToTally(emptyTally(), 3, [0, arm])).toThrow(/0 to 2/);
    expect(() =>
      sumTallies([addToTally(emptyTally(), 3, [0, 1]), addToTally(emptyTally(), 4, [0, 1])]),
    ).toThrow(/different numbers of arms/);
  });
});
