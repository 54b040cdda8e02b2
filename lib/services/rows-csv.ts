import type { PoolTable } from "@/lib/engine/statistics/pool-table";
import { type CsvField, csvLine } from "./csv";

const COLUMNS = [
  "grower",
  "outing",
  "band",
  "region",
  "arm",
  "box",
  "available",
  "outcome",
  "status",
  "clean_take",
] as const;

/** A further column, which the command passes over. */
export interface MoreColumn {
  readonly name: string;
  readonly at: (row: number) => CsvField;
}

/**
 * A trial's boxes, one a line, as a table that the command `grainlot pool` reads and finds the same in; it passes over
 * `clean_take` (1, 0, empty where unknown), which the trial's own result has besides, and over further columns.
 */
export function rowsCsv(table: PoolTable, more: readonly MoreColumn[] = []): string {
  const { columns, region, box, cleanTake } = table;
  const { labels } = columns;
  const lines = Array.from({ length: columns.n }, (_, row) => {
    const outcome = columns.outcome[row]!;
    const clean = cleanTake?.[row] ?? -1;
    return csvLine([
      labels.grower[columns.grower[row]!],
      labels.outing[columns.outing[row]!],
      labels.band[columns.band[row]!],
      region?.labels[region.index[row]!],
      labels.arm[columns.arm[row]!],
      box ? boxAt(box, row) : null,
      labels.availability[columns.availability[row]!],
      Number.isNaN(outcome) ? null : outcome,
      columns.lost[row] === 1 ? "lost" : "graded",
      clean < 0 ? null : clean,
      ...more.map(({ at }) => at(row)),
    ]);
  });
  return csvLine([...COLUMNS, ...more.map(({ name }) => name)]) + lines.join("");
}

/** The code of the box in a row; null where it has none. */
export function boxAt({ texts, index }: NonNullable<PoolTable["box"]>, row: number): string | null {
  const place = index[row]!;
  if (place < 0) return null;
  const from = place === 0 ? 0 : texts.ends[place - 1]!;
  return new TextDecoder().decode(texts.bytes.subarray(from, texts.ends[place]));
}
