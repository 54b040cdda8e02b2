/*
 * How long a lead's desk takes over 2,000 households (unless a number follows) with two sets of four boxes each, and
 * its list of households. Starts a PostgreSQL of its own. From the project's root:
 *   npx esbuild tests/benchmark/desk.ts --bundle --platform=node --format=esm --packages=external \\
 *     --alias:@/lib/launch=../../lib/launch '--external:../../lib/launch/*' --outfile=dist/benchmark/desk.mjs
 *   node dist/benchmark/desk.mjs 2000
 */
import type { Actor } from "@/lib/auth/actor";
import { database } from "@/lib/data/client";
import { deskOf, peoplePage } from "@/lib/services/lead/desk";
import { leadTrialView } from "@/lib/services/lead/read";
import { reading } from "@/lib/services/run";
import { withBigTrial } from "../simulation/big-trial-database";

const SHAPE = { setsPerHousehold: 2, boxesPerSet: 4 };
const REPEATS = 7;
const households = Number(process.argv[2] ?? 2_000);

await withBigTrial(
  households * SHAPE.setsPerHousehold,
  async ({ rows }) => {
    const { id } = rows.trial;
    const account = await database().account.findUniqueOrThrow({
      where: { id: rows.leadAccountIds[0]! },
      include: { grower: true },
    });
    const { growerId, name, grower } = account;
    const lead: Actor = {
      ...{ accountId: account.id, growerId, name, householdId: grower.householdId },
      ...{ isAdmin: false, mayLead: true },
    };
    const now = new Date();
    await timed("the desk", () =>
      Promise.all([reading((tx) => leadTrialView(tx, lead, id)), reading((tx) => deskOf(tx, lead, id, now))]),
    );
    for (const group of [null, "overdue"] as const) {
      const asked = { trialId: id, group, page: 3 };
      await timed(`households, ${group ?? "all"}`, () => reading((tx) => peoplePage(tx, lead, asked, now)));
    }
  },
  SHAPE,
);

async function timed<Value>(name: string, work: () => Promise<Value>): Promise<void> {
  const took: number[] = [];
  const cpu = process.cpuUsage();
  for (let i = 0; i < REPEATS; i++) {
    const started = performance.now();
    await work();
    took.push(performance.now() - started);
  }
  const { user, system } = process.cpuUsage(cpu);
  took.sort((a, b) => a - b);
  const [median, longest] = [took[Math.floor(REPEATS / 2)]!, took.at(-1)!].map((ms) => ms.toFixed(0));
  const own = ((user + system) / 1000 / REPEATS).toFixed(0);
  console.log(`${name}: ${median} ms (median), ${longest} ms (longest), of it in this process ${own} ms`);
}
