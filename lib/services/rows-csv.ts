import type { PoolTable } from "@/lib/engine/statistics/pool-table";
import { csvLine } from "./csv";

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

/**
 * A trial's boxes, one a line, as a table that the command `grainlot pool` reads and finds the same in; it passes over
 * `clean_take` (1, 0, empty where unknown), which the trial's own result has besides.
 */
export function rowsCsv({ columns, region, box, cleanTake }: PoolTable): string {
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
      box ? textAt(box, row) : null,
      labels.availability[columns.availability[row]!],
      Number.isNaN(outcome) ? null : outcome,
      columns.lost[row] === 1 ? "lost" : "graded",
      clean < 0 ? null : clean,
    ]);
  });
  return csvLine(COLUMNS) + lines.join("");
}

function textAt({ texts, index }: NonNullable<PoolTable["box"]>, row: number): string | null {
  const place = index[row]!;
  if (place < 0) return null;
  const from = place === 0 ? 0 : texts.ends[place - 1]!;
  return new TextDecoder().decode(texts.bytes.subarray(from, texts.ends[place]));
}
