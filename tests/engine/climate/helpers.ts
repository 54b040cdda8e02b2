import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parse } from "csv-parse/sync";

/** Rows of a fixture of this folder as text by column. */
export function readFixture(name: string): Record<string, string>[] {
  const path = fileURLToPath(new URL(`../../fixtures/reference/climate/${name}`, import.meta.url));
  return parse(readFileSync(path, "utf8"), { columns: true, skip_empty_lines: true });
}

/** Seeded uniform numbers in [0, 1) for property loops: Park & Miller's minimal standard generator. */
export function seededUniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return (state - 1) / 2147483646;
  };
}

/** Twelve months: `rest` everywhere but in the months named (0 is January). */
export function months(rest: number, special: Readonly<Record<number, number>> = {}): number[] {
  return Array.from({ length: 12 }, (_, month) => special[month] ?? rest);
}
