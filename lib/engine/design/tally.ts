/**
 * What earlier draws in one climate group (and region) leave for the next: whole numbers only, so that neither the
 * order of the draws nor rounding can change it.
 */
export interface DrawTally {
  readonly draws: number;
  /**
   * By block size k: for arms i ≤ j in the plan's order (upper triangle row by row, diagonal included) the sum over
   * blocks of n_i n_j, n_i being the boxes of the block that hold arm i.
   */
  readonly blocks: Readonly<Record<string, readonly number[]>>;
}

export function emptyTally(): DrawTally {
  return { draws: 0, blocks: {} };
}

/**
 * The tally with one block more.
 * @param armIndexes the arm of each box, counted from 0 in the plan's order; an arm may come several times.
 * Throws when one isn't an arm.
 */
export function addToTally(tally: DrawTally, armCount: number, armIndexes: readonly number[]): DrawTally {
  const n = new Array<number>(armCount).fill(0);
  for (const arm of armIndexes) {
    if (!(arm in n)) throw new RangeError(`Arms are counted from 0 to ${armCount - 1}; got ${arm}.`);
    n[arm]! += 1;
  }
  const size = String(armIndexes.length);
  const sums = [...(tally.blocks[size] ?? new Array<number>((armCount * (armCount + 1)) / 2).fill(0))];
  for (let i = 0, at = 0; i < armCount; i++) {
    for (let j = i; j < armCount; j++, at++) sums[at]! += n[i]! * n[j]!;
  }
  return { draws: tally.draws + 1, blocks: { ...tally.blocks, [size]: sums } };
}

/** The tally of all the draws of several. Throws when they aren't of the same number of arms. */
export function sumTallies(tallies: readonly DrawTally[]): DrawTally {
  const blocks: Record<string, readonly number[]> = {};
  for (const tally of tallies) {
    for (const [size, sums] of Object.entries(tally.blocks)) {
      const sofar = blocks[size];
      if (sofar !== undefined && sofar.length !== sums.length) {
        throw new RangeError("These tallies are of trials with different numbers of arms.");
      }
      blocks[size] = sofar === undefined ? sums : sofar.map((sum, at) => sum + sums[at]!);
    }
  }
  return { draws: tallies.reduce((sum, { draws }) => sum + draws, 0), blocks };
}

/** Boxes drawn for each arm, in the plan's order: a block of k boxes adds n_i Σ_j n_j = k n_i to arm i's row. */
export function boxesByArm(tally: DrawTally, armCount: number): number[] {
  const boxes = new Array<number>(armCount).fill(0);
  for (const [size, sums] of Object.entries(tally.blocks)) {
    for (let i = 0, at = 0; i < armCount; i++) {
      for (let j = i; j < armCount; j++, at++) {
        boxes[i]! += sums[at]! / Number(size);
        if (j !== i) boxes[j]! += sums[at]! / Number(size);
      }
    }
  }
  return boxes.map(Math.round);
}
