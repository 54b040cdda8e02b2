import { text } from "node:stream/consumers";
import { type PoolOptions, poolTrial } from "@/lib/engine/statistics/pool-trial";
import { withholdSmallCells } from "@/lib/engine/statistics/withholding";
import type { PoolRow } from "@/shared/schemas/pool";

/**
 * A program of its own, so that a long pool neither holds up the pages nor takes their memory.
 * Standard input: JSON `{ rows, options }`. Standard output: JSON `{ result, published }`.
 */
async function main(): Promise<void> {
  const { rows, options } = JSON.parse(await text(process.stdin)) as {
    rows: readonly PoolRow[];
    options: PoolOptions;
  };
  const result = poolTrial(rows, options);
  process.stdout.write(JSON.stringify({ result, published: withholdSmallCells(result, rows) }));
}

main().catch((fault: unknown) => {
  process.stderr.write(`${fault instanceof Error ? fault.message : String(fault)}\n`);
  process.exitCode = 1;
});
