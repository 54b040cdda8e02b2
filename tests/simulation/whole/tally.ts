import type { Claim } from "./figures";
import type { Figures } from "./test-figures";

/** Sums over some runs of one kind of trial. */
export interface Chunk {
  /** Of the program that made it. */
  readonly build: string;
  readonly cell: string;
  /** Number of its first run. */
  readonly from: number;
  /** By figure: runs that have it, its sum, its sum of squares. */
  readonly figures: Record<string, [number, number, number]>;
  /** By tenth of the claimed chance: arms, sum claimed, how many came true. */
  readonly claims: [number, number, number][];
}

const BINS = 10;

export function emptyChunk(build: string, cell: string, from: number): Chunk {
  return { build, cell, from, figures: {}, claims: Array.from({ length: BINS }, () => [0, 0, 0]) };
}

export function addFigures(chunk: Chunk, figures: Figures): void {
  for (const [name, value] of Object.entries(figures)) {
    chunk.figures[name] ??= [0, 0, 0];
    const sums = chunk.figures[name];
    sums[0] += 1;
    sums[1] += value;
    sums[2] += value * value;
  }
}

export function addClaims(chunk: Chunk, claims: readonly Claim[]): void {
  for (const claim of claims) {
    const bin = chunk.claims[Math.min(BINS - 1, Math.floor(claim.claimed * BINS))]!;
    bin[0] += 1;
    bin[1] += claim.claimed;
    bin[2] += Number(claim.true);
  }
}

/** The chunks of a file, one a line; a last line cut off is left out. */
export function parseChunks(text: string): Chunk[] {
  return text
    .split("\n")
    .slice(0, -1)
    .map((line) => JSON.parse(line));
}
