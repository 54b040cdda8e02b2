/*
 * How long a draw and the readings of all boxes take in an open trial of 24 recipes in sets of 12 boxes, after so
 * many sets (10,000 unless a number follows). Starts a PostgreSQL of its own. From the project's root:
 *   npx esbuild tests/simulation/draw-request.ts --bundle --platform=node --format=esm --packages=external \\
 *     --alias:@/lib/launch=../../lib/launch '--external:../../lib/launch/*' --outfile=dist/simulation/draw-request.mjs
 *   node dist/simulation/draw-request.mjs 10000
 */
import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { database } from "@/lib/data/client";
import { recordedBoxes } from "@/lib/data/drawn-boxes";
import { householdsOfTrial, setsOfTrial } from "@/lib/data/lead-desk";
import { progressByGroup } from "@/lib/data/lead-progress";
import { oddRecords } from "@/lib/data/odd-records";
import { claimReceipt, keepAnswer } from "@/lib/data/receipts";
import { readBoxFlow } from "@/lib/data/trials";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { analysisTable } from "@/lib/services/pool-data";
import { inTransaction } from "@/lib/services/run";
import type { BigTrial } from "./big-trial";
import { withBigTrial } from "./big-trial-database";

const sets = Number(process.argv[2] ?? 10_000);
const DRAWS = 40;

await withBigTrial(sets, async (big) => {
  await measureDraws(big);
  await measureReads(big.rows.trial.id);
});

/** As a phone's request does it, receipt and all; the first one also counts the ledger. */
async function measureDraws({ rows, households }: BigTrial): Promise<void> {
  const times: number[] = [];
  let workMs = 0;
  for (let turn = 0; turn < DRAWS; turn++) {
    const outingId = await planAnother(rows, turn);
    const { growerId, householdId } = households[turn % households.length]!;
    const actor: Actor = {
      accountId: growerId,
      growerId,
      householdId,
      name: "",
      isAdmin: false,
      mayLead: false,
    };
    const id = v7();
    const cpu = process.cpuUsage();
    const started = performance.now();
    const answer = await inTransaction(async (tx) => {
      await claimReceipt(tx, { id, accountId: growerId, route: "draws", contentSha256: "0".repeat(64) });
      const drawn = await drawOuting(tx, actor, { id, outingId });
      if (drawn.ok) await keepAnswer(tx, id, 201, drawn.value);
      return drawn;
    });
    times.push(performance.now() - started);
    if (!answer.ok) throw new Error(answer.reason);
    const { user, system } = process.cpuUsage(cpu);
    if (turn > 0) workMs += (user + system) / 1000;
  }
  const [first, ...later] = times;
  later.sort((a, b) => a - b);
  const at = (share: number) => later[Math.floor(share * (later.length - 1))]!.toFixed(1);
  console.log(`First draw, which counts the ledger of ${sets} draws: ${first!.toFixed(0)} ms`);
  console.log(
    `Each of ${later.length} later draws: median ${at(0.5)} ms, nine in ten within ${at(0.9)} ms, slowest ${at(1)} ms`,
  );
  console.log(`Of it at work in this process, on average: ${(workMs / later.length).toFixed(1)} ms`);
}

/** A planned set like one drawn before. */
async function planAnother({ outings }: BigTrial["rows"], turn: number): Promise<string> {
  const id = v7();
  const like = outings[turn]!;
  const code = `new-${turn}`;
  const undrawn = { status: "planned", committedAt: null, band: null, koppenClass: null };
  await database().outing.create({ data: { ...like, ...undrawn, id, code } as never });
  const boxes = Array.from({ length: 12 }, (_, at) => ({
    id: v7(),
    outingId: id,
    position: at + 1,
    code: `${code}-${at + 1}`,
  }));
  await database().box.createMany({ data: boxes });
  return id;
}

async function measureReads(trialId: string): Promise<void> {
  const reads = {
    "boxes of the analysis": () => analysisTable(database(), trialId),
    "flow of boxes": () => readBoxFlow(database(), trialId),
    "progress by group": () => progressByGroup(database(), trialId, null),
    "boxes recorded": () => recordedBoxes(database(), trialId),
    "homes at the desk": () => householdsOfTrial(database(), trialId, ["Cfb"]),
    "sets at the desk": () => setsOfTrial(database(), trialId),
    "odd records": () => oddRecords(database(), trialId, { now: new Date(), skip: 0, take: 26 }),
  };
  for (const [name, read] of Object.entries(reads)) {
    const started = performance.now();
    await read();
    console.log(`${name}: ${(performance.now() - started).toFixed(0)} ms`);
  }
}
