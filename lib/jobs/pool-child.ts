import { createHash } from "node:crypto";
import { buffer } from "node:stream/consumers";
import { deserialize } from "node:v8";
import { type PoolWork, poolBothWays } from "@/lib/services/pool-both-ways";

/**
 * A program of its own, so that a long pool neither holds up the pages nor takes their memory.
 * Standard input: a `PoolWork` by structured clone, as columns of 100,000 boxes are. Standard output: JSON of `Pooled`.
 */
async function main(): Promise<void> {
  const work = deserialize(await buffer(process.stdin)) as PoolWork;
  const options = { ...work.options, newHash: () => createHash("sha256") };
  process.stdout.write(JSON.stringify(poolBothWays({ ...work, options })));
}

main().catch((fault: unknown) => {
  process.stderr.write(`${fault instanceof Error ? fault.message : String(fault)}\n`);
  process.exitCode = 1;
});
