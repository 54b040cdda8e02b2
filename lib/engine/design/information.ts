import type { DrawTally } from "./tally";

/*
 * How well a climate group's blocks compare its arms. Part of rule grainlot-draw/2, so nothing here may change a
 * single digit: sums run in the order written, with + − × / only.
 */

/** Prior information on every contrast: joining two unjoined parts is worth the most, yet counts are finite. */
const RIDGE = 1 / 16;

/** A dense symmetric matrix, row by row. */
type Matrix = Float64Array;

/** What is known of the arms' contrasts before a block is added. */
export interface Precision {
  readonly draws: number;
  /** G, the covariance of the contrasts (residual variance 1), and its square. */
  readonly covariance: Matrix;
  readonly squared: Matrix;
  /** tr G over contrasts: (v − 1)/2 times the average variance of the pairwise differences of v arms. */
  readonly spread: number;
}

/** C = Σ (diag n − nn′/k), the information matrix of the blocks for arms, block effects being free. */
export function informationMatrix(tally: DrawTally, armCount: number): Float64Array {
  const c = new Float64Array(armCount * armCount);
  const sizes = Object.keys(tally.blocks).sort((a, b) => Number(a) - Number(b));
  for (const size of sizes) {
    const sums = tally.blocks[size]!;
    for (let i = 0, at = 0; i < armCount; i++) {
      at++; // The diagonal follows from the rest: rows of C sum to zero.
      for (let j = i + 1; j < armCount; j++, at++) {
        const shared = sums[at]! / Number(size);
        c[i * armCount + j]! -= shared;
        c[j * armCount + i]! -= shared;
        c[i * armCount + i]! += shared;
        c[j * armCount + j]! += shared;
      }
    }
  }
  return c;
}

/** The precision after the tally's draws, the ridge included. */
export function precisionAfter(tally: DrawTally, armCount: number): Precision {
  const v = armCount;
  const m = informationMatrix(tally, v);
  let trace = 0;
  for (let i = 0; i < v; i++) trace += m[i * v + i]!;
  // The constant direction carries no contrast; a weight of the others' size there keeps the inverse accurate.
  const constant = trace / v + 1;
  for (let i = 0; i < v; i++) {
    m[i * v + i]! += RIDGE;
    for (let j = 0; j < v; j++) m[i * v + j]! += constant / v;
  }
  invert(m, v);
  let spread = 0;
  for (let i = 0; i < v; i++) spread += m[i * v + i]!;
  return {
    draws: tally.draws,
    covariance: m,
    squared: squareOf(m, v),
    spread: spread - 1 / (RIDGE + constant),
  };
}

/**
 * How much a block of k boxes is worth: the share of the spread that it removes, times the draws with it, which
 * makes small and large groups alike. The block adds Z′PZ to the information (Z its boxes × arms, P = I − J/k), so
 * the spread falls by tr (I + PG₀P)⁻¹ P(G²)₀P, where ₀ takes the rows and columns of the block's boxes (Woodbury).
 * @returns a function of the block, the arm of each box counted from 0.
 */
export function gainFunction(
  { draws, covariance, squared, spread }: Precision,
  armCount: number,
  k: number,
): (block: readonly number[]) => number {
  const inner = new Float64Array(k * k);
  const weights = new Float64Array(k * k);
  return (block) => {
    centredPart(covariance, armCount, block, inner);
    for (let i = 0; i < k; i++) inner[i * k + i]! += 1;
    invert(inner, k);
    centredPart(squared, armCount, block, weights);
    let fall = 0;
    for (let at = 0; at < k * k; at++) fall += inner[at]! * weights[at]!;
    return ((draws + 1) * fall) / spread;
  };
}

/** Fills `part` with PA₀P: the rows and columns of the block's boxes, with row and column means taken out. */
function centredPart(a: Matrix, armCount: number, block: readonly number[], part: Matrix): void {
  const k = block.length;
  for (let i = 0; i < k; i++) {
    const row = block[i]! * armCount;
    let sum = 0;
    for (let j = 0; j < k; j++) sum += a[row + block[j]!]!;
    for (let j = 0; j < k; j++) part[i * k + j] = a[row + block[j]!]! - sum / k;
  }
  for (let j = 0; j < k; j++) {
    let sum = 0;
    for (let i = 0; i < k; i++) sum += part[i * k + j]!;
    for (let i = 0; i < k; i++) part[i * k + j]! -= sum / k;
  }
}

function squareOf(a: Matrix, v: number): Matrix {
  const square = new Float64Array(v * v);
  for (let i = 0; i < v; i++) {
    for (let j = i; j < v; j++) {
      let sum = 0;
      for (let l = 0; l < v; l++) sum += a[i * v + l]! * a[j * v + l]!;
      square[i * v + j] = sum;
      square[j * v + i] = sum;
    }
  }
  return square;
}

/**
 * Puts the inverse of a positive definite matrix in its place, pivot after pivot down the diagonal (the sweep
 * operator: Goodnight 1979, The American Statistician 33:149–158); such a matrix needs no other order. Only the
 * lower triangle is worked on, and mirrored at the end.
 */
function invert(a: Matrix, v: number): void {
  const column = new Float64Array(v);
  for (let p = 0; p < v; p++) {
    const pivot = a[p * v + p]!;
    for (let i = 0; i < v; i++) column[i] = i < p ? a[p * v + i]! : a[i * v + p]!;
    for (let i = 0; i < v; i++) {
      if (i === p) continue;
      const factor = column[i]! / pivot;
      for (let j = 0; j <= i; j++) a[i * v + j]! -= factor * column[j]!;
    }
    for (let i = 0; i < v; i++) {
      if (i < p) a[p * v + i] = column[i]! / pivot;
      else a[i * v + p] = column[i]! / pivot;
    }
    a[p * v + p] = -1 / pivot;
  }
  for (let i = 0; i < v; i++) {
    for (let j = 0; j <= i; j++) {
      const value = -a[i * v + j]!;
      a[i * v + j] = value;
      a[j * v + i] = value;
    }
  }
}

/**
 * For each arm the lowest arm it is joined with by a chain of blocks: arms with the same number can be compared.
 * @returns one number per arm, counted from 0 in the plan's order.
 */
export function connectedParts(tally: DrawTally, armCount: number): number[] {
  const part = Array.from({ length: armCount }, (_, arm) => arm);
  for (const sums of Object.values(tally.blocks)) {
    for (let i = 0, at = 0; i < armCount; i++) {
      for (let j = i; j < armCount; j++, at++) {
        const [low, high] = [Math.min(part[i]!, part[j]!), Math.max(part[i]!, part[j]!)];
        if (sums[at] === 0 || low === high) continue;
        for (let arm = 0; arm < armCount; arm++) if (part[arm] === high) part[arm] = low;
      }
    }
  }
  return part;
}
