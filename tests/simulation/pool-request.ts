/*
 * How much work it is from a new grade to the stored result in a trial of 24 recipes in 5 climate groups with so many
 * sets of 12 boxes (8,400 unless a number follows, 100,800 boxes). Starts a PostgreSQL of its own. From the project's
 * root:
 *   npx esbuild tests/simulation/pool-request.ts --bundle --platform=node --format=esm --packages=external \\
 *     --alias:@/lib/launch=../../lib/launch '--external:../../lib/launch/*' --outfile=dist/simulation/pool-request.mjs
 *   node dist/simulation/pool-request.mjs 8400
 */
import { createHash } from "node:crypto";
import { database, transaction } from "@/lib/data/client";
import { keepPoolResult } from "@/lib/data/pool";
import { keepCut, takeCut, wantPool } from "@/lib/data/pool-state";
import { poolInProcess } from "@/lib/jobs/pool-process";
import { poolBothWays } from "@/lib/services/pool-both-ways";
import { poolWork } from "@/lib/services/pooling";
import { withBigTrial } from "./big-trial-database";

const sets = Number(process.argv[2] ?? 8_400);

await withBigTrial(sets, async (big) => {
  const { id } = big.rows.trial;
  await transaction((tx) => wantPool(tx, id));
  const { work } = await timed("read the boxes", () => transaction((tx) => poolWork(tx, id, new Date())));
  console.log(`${work.table.columns.n} boxes`);
  await timed("take the cut", () => transaction((tx) => takeCut(tx, id)));
  const pooled = await timed("pool in place", async () =>
    poolBothWays({ ...work, options: { ...work.options, newHash: () => createHash("sha256") } }),
  );
  await timed("keep it", () =>
    transaction(async (tx) => {
      await keepPoolResult(tx, id, { ...pooled, boxes: work.table.columns.n });
      await keepCut(tx, id, { at: new Date(), sha256: pooled.cut });
    }),
  );
  const program = process.argv[3];
  if (program) await timed("pool in a process of its own", () => poolInProcess(work, program));
  console.log(`stored: ${await database().poolResult.count()}`);
});

async function timed<T>(name: string, work: () => Promise<T>): Promise<T> {
  const cpu = process.cpuUsage();
  const started = performance.now();
  const result = await work();
  const { user, system } = process.cpuUsage(cpu);
  console.log(
    `${name}: ${(performance.now() - started).toFixed(0)} ms, of it at work in this process ${((user + system) / 1000).toFixed(0)} ms`,
  );
  return result;
}
