import type { PoolColumns } from "./columns";

/** The measured boxes of every outing that has at least two, ranked among themselves; blocks in grower order. */
export interface RankBlocks {
  readonly armCount: number;
  /** Block j's boxes stand from `start[j]` to `start[j + 1]`. */
  readonly start: Int32Array;
  readonly grower: Int32Array;
  readonly band: Int32Array;
  /** Arm of each box. */
  readonly arm: Int32Array;
  /**
   * 2 · rank − (k + 1) of each box among its outing's k, ties sharing their mean rank: a whole number, 0 in sum.
   * Over 2(k + 1) it is the score rank/(k + 1) less the block's mean. Sums of whole numbers are exact, so that no
   * result depends on the order of the rows.
   */
  readonly twiceCentredRank: Float64Array;
  /** By band number, outings with a single measured box: nothing to rank it against. */
  readonly skippedOutings: Int32Array;
}

/**
 * Ranks the boxes with an outcome within outings. Time and memory grow linearly with the rows; blocks follow the
 * columns' grower and outing numbers.
 */
export function rankBlocks(columns: PoolColumns): RankBlocks {
  const { n, labels, outing, outcome } = columns;
  const boxes = new Int32Array(labels.outing.length);
  const rowOf = new Int32Array(labels.outing.length);
  for (let row = 0; row < n; row++) {
    if (Number.isNaN(outcome[row]!)) continue;
    boxes[outing[row]!]!++;
    rowOf[outing[row]!] = row;
  }
  const skippedOutings = new Int32Array(labels.band.length);
  boxes.forEach((k, o) => {
    if (k === 1) skippedOutings[columns.band[rowOf[o]!]!]!++;
  });
  const outings = byGrower(columns, boxes, rowOf);
  const start = new Int32Array(outings.length + 1);
  const next = new Int32Array(labels.outing.length);
  outings.forEach((o, j) => {
    next[o] = start[j]!;
    start[j + 1] = start[j]! + boxes[o]!;
  });
  const total = start[outings.length]!;
  const arm = new Int32Array(total);
  const value = new Float64Array(total);
  for (let row = 0; row < n; row++) {
    const o = outing[row]!;
    if (boxes[o]! < 2 || Number.isNaN(outcome[row]!)) continue;
    const place = next[o]!++;
    arm[place] = columns.arm[row]!;
    value[place] = outcome[row]!;
  }
  return {
    armCount: labels.arm.length,
    start,
    grower: outings.map((o) => columns.grower[rowOf[o]!]!),
    band: outings.map((o) => columns.band[rowOf[o]!]!),
    arm,
    twiceCentredRank: rankWithin(start, value),
    skippedOutings,
  };
}

/** The blocks of one band alone. */
export function blocksInBand(blocks: RankBlocks, band: number): RankBlocks {
  const isChosen = (j: number): boolean => blocks.band[j] === band;
  let [outings, boxes] = [0, 0];
  for (let j = 0; j < blocks.band.length; j++) {
    if (!isChosen(j)) continue;
    outings++;
    boxes += blocks.start[j + 1]! - blocks.start[j]!;
  }
  const start = new Int32Array(outings + 1);
  const grower = new Int32Array(outings);
  const arm = new Int32Array(boxes);
  const twiceCentredRank = new Float64Array(boxes);
  for (let j = 0, to = 0, at = 0; j < blocks.band.length; j++) {
    if (!isChosen(j)) continue;
    grower[to] = blocks.grower[j]!;
    for (let i = blocks.start[j]!; i < blocks.start[j + 1]!; i++, at++) {
      arm[at] = blocks.arm[i]!;
      twiceCentredRank[at] = blocks.twiceCentredRank[i]!;
    }
    start[++to] = at;
  }
  return {
    armCount: blocks.armCount,
    start,
    grower,
    band: new Int32Array(outings).fill(band),
    arm,
    twiceCentredRank,
    skippedOutings: blocks.skippedOutings.map((skipped, b) => (b === band ? skipped : 0)),
  };
}

/** Outings with two boxes or more, those of one grower together. */
function byGrower(columns: PoolColumns, boxes: Int32Array, rowOf: Int32Array): Int32Array {
  const place = new Int32Array(columns.labels.grower.length + 1);
  for (let o = 0; o < boxes.length; o++) {
    if (boxes[o]! >= 2) place[columns.grower[rowOf[o]!]! + 1]!++;
  }
  for (let g = 1; g < place.length; g++) place[g]! += place[g - 1]!;
  const outings = new Int32Array(place[place.length - 1]!);
  for (let o = 0; o < boxes.length; o++) {
    if (boxes[o]! >= 2) outings[place[columns.grower[rowOf[o]!]!]!++] = o;
  }
  return outings;
}

/** Up to this many boxes every pair is compared; beyond, they are sorted. */
const PAIRS_AT_MOST = 24;

function rankWithin(start: Int32Array, value: Float64Array): Float64Array {
  const centred = new Float64Array(value.length);
  for (let j = 0; j + 1 < start.length; j++) {
    const [first, end] = [start[j]!, start[j + 1]!];
    if (end - first > PAIRS_AT_MOST) rankBySorting(first, end, value, centred);
    else rankByPairs(first, end, value, centred);
  }
  return centred;
}

/** A box's 2 · rank − (k + 1) is the number of boxes below it less the number above. */
function rankByPairs(first: number, end: number, value: Float64Array, centred: Float64Array): void {
  for (let i = first + 1; i < end; i++) {
    for (let j = first; j < i; j++) {
      const above = value[i]! > value[j]! ? 1 : value[i]! < value[j]! ? -1 : 0;
      centred[i]! += above;
      centred[j]! -= above;
    }
  }
}

function rankBySorting(first: number, end: number, value: Float64Array, centred: Float64Array): void {
  const sorted = value.slice(first, end).sort();
  const k = sorted.length;
  for (let i = first; i < end; i++) {
    const below = countBelow(sorted, (x) => x < value[i]!);
    const notAbove = countBelow(sorted, (x) => x <= value[i]!);
    centred[i] = below - (k - notAbove);
  }
}

/** How many leading items of a sorted list pass a test that the rest fails. */
function countBelow(sorted: Float64Array, passes: (x: number) => boolean): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (passes(sorted[middle]!)) low = middle + 1;
    else high = middle;
  }
  return low;
}
