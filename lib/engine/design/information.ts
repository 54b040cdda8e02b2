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
  const covariance = inverseOf(m, v);
  let spread = 0;
  for (let i = 0; i < v; i++) spread += covariance[i * v + i]!;
  return {
    draws: tally.draws,
    covariance,
    squared: squareOf(covariance, v),
    spread: spread - 1 / (RIDGE + constant),
  };
}

/**
 * By how much a block lowers the spread. The block adds Z′PZ to the information (Z its boxes × arms, P = I − J/k),
 * so the spread falls by tr (I + PG₀P)⁻¹ P(G²)₀P, where ₀ is the part of the block's boxes (Woodbury).
 * @param block the arm of each box, counted from 0.
 */
export function gainFrom(
  { covariance, squared }: Precision,
  armCount: number,
  block: readonly number[],
): number {
  const k = block.length;
  const within = centredPart(covariance, armCount, block);
  for (let i = 0; i < k; i++) within[i * k + i]! += 1;
  const solved = inverseOf(within, k);
  const weights = centredPart(squared, armCount, block);
  let gain = 0;
  for (let at = 0; at < k * k; at++) gain += solved[at]! * weights[at]!;
  return gain;
}

/** PA₀P: the rows and columns of the block's boxes, with row and column means taken out. */
function centredPart(a: Matrix, armCount: number, block: readonly number[]): Matrix {
  const k = block.length;
  const part = new Float64Array(k * k);
  const means = new Float64Array(k);
  let mean = 0;
  for (let i = 0; i < k; i++) {
    const row = block[i]! * armCount;
    let sum = 0;
    for (let j = 0; j < k; j++) {
      const value = a[row + block[j]!]!;
      part[i * k + j] = value;
      sum += value;
    }
    means[i] = sum / k;
    mean += means[i]! / k;
  }
  for (let i = 0; i < k; i++) {
    for (let j = 0; j < k; j++) part[i * k + j]! -= means[i]! + means[j]! - mean;
  }
  return part;
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

/** The inverse of a positive definite matrix by Gauss–Jordan elimination, which needs no pivoting there. */
function inverseOf(matrix: Matrix, v: number): Matrix {
  const a = Float64Array.from(matrix);
  for (let p = 0; p < v; p++) {
    const pivot = 1 / a[p * v + p]!;
    a[p * v + p] = 1;
    for (let j = 0; j < v; j++) a[p * v + j]! *= pivot;
    for (let i = 0; i < v; i++) {
      if (i === p) continue;
      const factor = a[i * v + p]!;
      if (factor === 0) continue;
      a[i * v + p] = 0;
      for (let j = 0; j < v; j++) a[i * v + j]! -= factor * a[p * v + j]!;
    }
  }
  return a;
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
