import type { RankBlocks } from "./rank-blocks";

/** T and S of the plain form over the arms that occur. */
export interface PlainTotals {
  /** Numbers of the arms that occur, ascending: elsewhere an arm is named by its place here. */
  readonly arms: readonly number[];
  readonly T: readonly number[];
  readonly S: readonly (readonly number[])[];
}

/** Sums over the blocks of one size k: whole numbers, so exact below 2⁵³. */
interface SizeSums {
  /** Σ (2 · rank − (k + 1)) by arm. */
  readonly total: Float64Array;
  /** Σ v n by arm, v the block's Σ (2 · rank − (k + 1))², n its boxes of the arm. */
  readonly boxes: Float64Array;
  /** Σ v n n′ by pair of arms. */
  readonly pairs: Float64Array;
}

/** T = Σ (score − block mean) and S = Σ s²(diag n − nn′/k) by arm, s² the block's score variance over k − 1. */
export function plainTotals(blocks: RankBlocks): PlainTotals {
  const arms = armsIn(blocks);
  const place = placesOf(arms, blocks.armCount);
  const size = arms.length;
  const bySize = new Map<number, SizeSums>();
  for (let j = 0; j < blocks.grower.length; j++) {
    const k = blocks.start[j + 1]! - blocks.start[j]!;
    let sums = bySize.get(k);
    if (!sums) {
      sums = {
        total: new Float64Array(size),
        boxes: new Float64Array(size),
        pairs: new Float64Array(size * size),
      };
      bySize.set(k, sums);
    }
    addBlock(sums, blocks, j, place, size);
  }
  const T = arms.map(() => 0);
  const S = arms.map(() => arms.map(() => 0));
  for (const [k, { total, boxes, pairs }] of [...bySize].sort(([a], [b]) => a - b)) {
    const toScore = 1 / (2 * (k + 1));
    const toVariance = toScore ** 2 / (k - 1);
    for (let a = 0; a < size; a++) {
      T[a]! += total[a]! * toScore;
      S[a]![a]! += boxes[a]! * toVariance;
      for (let b = 0; b < size; b++) S[a]![b]! -= (pairs[a * size + b]! * toVariance) / k;
    }
  }
  return { arms, T, S };
}

function addBlock(sums: SizeSums, blocks: RankBlocks, j: number, place: Int32Array, size: number): void {
  const { arm, twiceCentredRank } = blocks;
  const [first, end] = [blocks.start[j]!, blocks.start[j + 1]!];
  let v = 0;
  for (let i = first; i < end; i++) v += twiceCentredRank[i]! ** 2;
  for (let i = first; i < end; i++) {
    const a = place[arm[i]!]!;
    sums.total[a]! += twiceCentredRank[i]!;
    sums.boxes[a]! += v;
  }
  if (end - first > size) {
    addManyBoxes(sums.pairs, blocks, j, place, v);
    return;
  }
  for (let i = first; i < end; i++) {
    const row = place[arm[i]!]! * size;
    for (let h = first; h < end; h++) sums.pairs[row + place[arm[h]!]!]! += v;
  }
}

/** Counts boxes by arm first, so that a block of very many boxes does not cost their square. */
function addManyBoxes(
  pairs: Float64Array,
  blocks: RankBlocks,
  j: number,
  place: Int32Array,
  v: number,
): void {
  const size = Math.round(Math.sqrt(pairs.length));
  const n = new Float64Array(size);
  for (let i = blocks.start[j]!; i < blocks.start[j + 1]!; i++) n[place[blocks.arm[i]!]!]!++;
  for (let a = 0; a < size; a++) {
    for (let b = 0; b < size; b++) pairs[a * size + b]! += v * n[a]! * n[b]!;
  }
}

/** Scores summed by grower and arm, growers in the order of their numbers. */
export interface GrowerTotals {
  readonly growers: number;
  /** Grower g's arms and totals stand from `start[g]` to `start[g + 1]`; for arms the grower never had, 0. */
  readonly start: Int32Array;
  /** Place of each arm among `PlainTotals.arms`, ascending within a grower. */
  readonly arm: Int32Array;
  readonly total: Float64Array;
}

/** Each grower's T; `arms` are those of `plainTotals`. */
export function growerTotals(blocks: RankBlocks, arms: readonly number[]): GrowerTotals {
  const place = placesOf(arms, blocks.armCount);
  const arm = new Int32Array(blocks.arm.length);
  const total = new Float64Array(blocks.arm.length);
  const start = [0];
  const sum = new Float64Array(arms.length);
  const inBlock = new Float64Array(arms.length);
  const had = new Uint8Array(arms.length);
  let end = 0;
  for (let j = 0; j < blocks.grower.length; j++) {
    const [first, last] = [blocks.start[j]!, blocks.start[j + 1]!];
    const toScore = 1 / (2 * (last - first + 1));
    for (let i = first; i < last; i++) {
      const a = place[blocks.arm[i]!]!;
      inBlock[a]! += blocks.twiceCentredRank[i]!;
      had[a] = 1;
    }
    for (let i = first; i < last; i++) {
      const a = place[blocks.arm[i]!]!;
      sum[a]! += inBlock[a]! * toScore;
      inBlock[a] = 0;
    }
    if (blocks.grower[j + 1] === blocks.grower[j]) continue;
    for (let a = 0; a < arms.length; a++) {
      if (had[a] === 0) continue;
      arm[end] = a;
      total[end++] = sum[a]!;
    }
    start.push(end);
    sum.fill(0);
    had.fill(0);
  }
  return {
    growers: start.length - 1,
    start: Int32Array.from(start),
    arm: arm.subarray(0, end),
    total: total.subarray(0, end),
  };
}

function armsIn(blocks: RankBlocks): number[] {
  const seen = new Uint8Array(blocks.armCount);
  for (let i = 0; i < blocks.arm.length; i++) seen[blocks.arm[i]!] = 1;
  return [...seen.keys()].filter((arm) => seen[arm] === 1);
}

function placesOf(arms: readonly number[], armCount: number): Int32Array {
  const place = new Int32Array(armCount);
  arms.forEach((arm, i) => {
    place[arm] = i;
  });
  return place;
}
