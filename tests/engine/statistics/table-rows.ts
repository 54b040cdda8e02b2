import type { PoolTable } from "@/lib/engine/statistics/pool-table";
import type { PoolRow } from "@/shared/schemas/pool";

/** The table as an object per row. */
export function poolRows({ columns, region, box, cleanTake }: PoolTable): PoolRow[] {
  const { labels } = columns;
  const boxBytes =
    box && Buffer.from(box.texts.bytes.buffer, box.texts.bytes.byteOffset, box.texts.bytes.length);
  const boxText = (text: number): string =>
    boxBytes!.toString("utf8", text === 0 ? 0 : box!.texts.ends[text - 1], box!.texts.ends[text]);
  return Array.from({ length: columns.n }, (_, row): PoolRow => {
    const outcome = columns.outcome[row]!;
    return {
      grower: labels.grower[columns.grower[row]!]!,
      outing: labels.outing[columns.outing[row]!]!,
      band: labels.band[columns.band[row]!]!,
      arm: labels.arm[columns.arm[row]!]!,
      outcome: Number.isNaN(outcome) ? null : outcome,
      status: columns.lost[row] === 1 ? "lost" : "graded",
      region: region && region.index[row]! >= 0 ? region.labels[region.index[row]!]! : null,
      box: box && box.index[row]! >= 0 ? boxText(box.index[row]!) : null,
      cleanTake: cleanTake && cleanTake[row]! >= 0 ? cleanTake[row] === 1 : null,
    };
  });
}
