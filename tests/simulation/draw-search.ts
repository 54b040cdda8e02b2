import type { RandomSource } from "@/lib/engine/random/source";
import type { Block } from "./draw-arrivals";

/**
 * Average efficiency factor of the blocks, (v − 1)/(r̄ Σ 1/λ) over the nonzero eigenvalues λ of
 * C = diag r − NK⁻¹N′ (John & Williams 1995, Cyclic and Computer Generated Designs, 2nd ed., ch. 2); 0 if disconnected.
 */
export function efficiency(blocks: readonly Block[], v: number): number {
  const boxes = blocks.reduce((sum, block) => sum + block.length, 0);
  const inverseSum = traceOfInverse(information(blocks, v), v);
  return Number.isFinite(inverseSum) ? ((v - 1) * v) / (boxes * inverseSum) : 0;
}

/** C + J/v, whose inverse is C⁺ + J/v. */
function information(blocks: readonly Block[], v: number): Float64Array {
  const c = new Float64Array(v * v).fill(1 / v);
  for (const block of blocks) addBlock(c, v, block, 1);
  return c;
}

function addBlock(c: Float64Array, v: number, block: Block, sign: 1 | -1): void {
  for (const i of block) {
    c[i * v + i]! += sign;
    for (const j of block) c[i * v + j]! -= sign / block.length;
  }
}

/** tr C⁺ by Cholesky, infinite when C is singular beyond the constant. */
function traceOfInverse(c: Float64Array, v: number): number {
  const l = Float64Array.from(c);
  let trace = 0;
  for (let j = 0; j < v; j++) {
    for (let i = j; i < v; i++) {
      let sum = l[i * v + j]!;
      for (let k = 0; k < j; k++) sum -= l[i * v + k]! * l[j * v + k]!;
      if (i === j && sum < 1e-9) return Number.POSITIVE_INFINITY;
      l[i * v + j] = i === j ? Math.sqrt(sum) : sum / l[j * v + j]!;
    }
  }
  // tr C⁻¹ = ‖L⁻¹‖², column by column.
  const x = new Float64Array(v);
  for (let column = 0; column < v; column++) {
    for (let i = column; i < v; i++) {
      let sum = i === column ? 1 : 0;
      for (let k = column; k < i; k++) sum -= l[i * v + k]! * x[k]!;
      x[i] = sum / l[i * v + i]!;
      trace += x[i]! ** 2;
    }
  }
  return trace - 1;
}

/**
 * The best efficiency that an interchange search finds over blocks of the same sizes and available arms: every box
 * in turn takes the available arm that serves best, and every two boxes of different blocks are exchanged where that
 * serves, until nothing does; from each of the starts given and from random ones.
 */
export function bestEfficiency(
  starts: readonly (readonly Block[])[],
  available: readonly (readonly number[])[],
  v: number,
  random: RandomSource,
  randomStarts: number,
): number {
  const sizes = starts[0]!.map((block) => block.length);
  const all = [...starts];
  for (let i = 0; i < randomStarts; i++) {
    all.push(available.map((arms, b) => random.shuffle(arms).slice(0, sizes[b]!)));
  }
  return Math.max(...all.map((start) => efficiency(interchanged(start, available, v), v)));
}

function interchanged(
  start: readonly Block[],
  available: readonly (readonly number[])[],
  v: number,
): readonly Block[] {
  const blocks = start.map((block) => [...block]);
  const c = information(blocks, v);
  let current = traceOfInverse(c, v);
  /** Tries other blocks in place of some; keeps them where the trace falls. */
  const serves = (changes: readonly { at: number; block: number[] }[]): boolean => {
    for (const { at, block } of changes) {
      addBlock(c, v, blocks[at]!, -1);
      addBlock(c, v, block, 1);
    }
    const trace = traceOfInverse(c, v);
    if (trace < current - 1e-9) {
      current = trace;
      for (const { at, block } of changes) blocks[at] = block;
      return true;
    }
    for (const { at, block } of changes) {
      addBlock(c, v, block, -1);
      addBlock(c, v, blocks[at]!, 1);
    }
    return false;
  };
  for (let moved = true; moved; ) {
    moved = false;
    for (let at = 0; at < blocks.length; at++) {
      for (let box = 0; box < blocks[at]!.length; box++) {
        for (const arm of available[at]!) {
          if (blocks[at]!.includes(arm)) continue;
          if (serves([{ at, block: blocks[at]!.with(box, arm) }])) moved = true;
        }
      }
    }
    for (let one = 0; one < blocks.length; one++) {
      for (let other = one + 1; other < blocks.length; other++) {
        if (exchange(blocks, available, one, other, serves)) moved = true;
      }
    }
  }
  return blocks;
}

function exchange(
  blocks: readonly number[][],
  available: readonly (readonly number[])[],
  one: number,
  other: number,
  serves: (changes: readonly { at: number; block: number[] }[]) => boolean,
): boolean {
  let moved = false;
  for (let i = 0; i < blocks[one]!.length; i++) {
    for (let j = 0; j < blocks[other]!.length; j++) {
      const [a, b] = [blocks[one]![i]!, blocks[other]![j]!];
      const possible =
        !blocks[one]!.includes(b) &&
        !blocks[other]!.includes(a) &&
        available[one]!.includes(b) &&
        available[other]!.includes(a);
      if (!possible) continue;
      const changes = [
        { at: one, block: blocks[one]!.with(i, b) },
        { at: other, block: blocks[other]!.with(j, a) },
      ];
      if (serves(changes)) moved = true;
    }
  }
  return moved;
}
