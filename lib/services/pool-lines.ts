import type { StoredBoxes } from "@/lib/data/pool-boxes";

// Stored columns, read line by line. Loops by hand: they go over 100,000 boxes, several times for each column.

export function linesOf(column: string | null): string[] {
  return column === null ? [] : column.split("\n");
}

/** By box, which line of the columns of sets is its set's. */
export function setLines({ sizes, lost }: StoredBoxes): Int32Array {
  const boxes = linesOf(lost).length;
  if (sizes == null) return upTo(boxes);
  const lines = new Int32Array(boxes);
  let from = 0;
  linesOf(sizes).forEach((size, line) => {
    lines.fill(line, from, from + Number(size));
    from += Number(size);
  });
  return lines;
}

/** 0, 1, 2, … */
export function upTo(n: number): Int32Array {
  const numbers = new Int32Array(n);
  for (let i = 0; i < n; i++) numbers[i] = i;
  return numbers;
}

/** What is known of each set, by box. */
export function spread(ofSets: Int32Array | Int8Array, setOf: Int32Array): Int32Array {
  const index = new Int32Array(setOf.length);
  for (let box = 0; box < index.length; box++) index[box] = ofSets[setOf[box]!]!;
  return index;
}

/** 1, 0, −1 by line. */
export function flagsOf(column: string | null): Int8Array {
  const lines = linesOf(column);
  const flags = new Int8Array(lines.length);
  for (let i = 0; i < flags.length; i++) flags[i] = Number(lines[i]);
  return flags;
}

/** Lines as labels, numbered as they come. */
export function numbered(lines: readonly string[]): {
  readonly labels: string[];
  readonly index: Int32Array;
} {
  const place = new Map<string, number>();
  const index = new Int32Array(lines.length);
  for (let i = 0; i < index.length; i++) {
    const known = place.get(lines[i]!);
    index[i] = known ?? place.size;
    if (known === undefined) place.set(lines[i]!, place.size);
  }
  return { labels: [...place.keys()], index };
}

/** NaN where nothing is known of a box; null where of none. */
export function numbersOf(lines: readonly string[]): Float64Array | null {
  if (lines.every((line) => line === "")) return null;
  const numbers = new Float64Array(lines.length);
  for (let i = 0; i < numbers.length; i++) numbers[i] = lines[i] === "" ? Number.NaN : Number(lines[i]);
  return numbers;
}

/** `of` for every line, worked out once for lines alike. */
export function eachOf(lines: readonly string[], of: (line: string) => string): string[] {
  const known = new Map<string, string>();
  return lines.map((line) => {
    const found = known.get(line) ?? of(line);
    known.set(line, found);
    return found;
  });
}
