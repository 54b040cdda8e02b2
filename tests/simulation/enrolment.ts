/*
 * 500 households ask at once for the 100 seats of a trial, over 20 connections, so many times (fifty unless a number
 * follows); half of them would wait in line. Starts a PostgreSQL of its own. From the project's root:
 *   npx esbuild tests/simulation/enrolment.ts --bundle --platform=node --format=esm --packages=external \\
 *     --alias:@/lib/launch=../../lib/launch '--external:../../lib/launch/*' --outfile=dist/simulation/enrolment.mjs
 *   node dist/simulation/enrolment.mjs 50
 */
import { PrismaPg } from "@prisma/adapter-pg";
import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { PrismaClient } from "@/lib/data/generated/client";
import { joinTrial } from "@/lib/services/growing/join";
import { AGREEMENT_VERSION } from "@/shared/schemas/enrolment";
import { startDatabaseServer } from "../harness/database-server";
import { createMigratedDatabase } from "../harness/template";

const HOUSEHOLDS = 500;
const SEATS = 100;
const CONNECTIONS = 20;
const REGION_ID = v7();

const rounds = Number(process.argv[2] ?? 50);
const server = await startDatabaseServer();
const { appUrl } = await createMigratedDatabase(server.url, "enrolment");
Object.assign(process.env, {
  DATABASE_URL: appUrl,
  GRAINLOT_MODE: "demo",
  NEXTAUTH_SECRET: "0123456789abcdefghijklmnopqrstuvwxyz0123",
  NEXTAUTH_URL: "http://127.0.0.1:3000",
  GRAINLOT_SEAL_KEY: "4f".repeat(32),
  LOG_LEVEL: "silent",
});
const db = new PrismaClient({ adapter: new PrismaPg({ connectionString: appUrl, max: CONNECTIONS }) });

try {
  await db.region.create({
    data: { id: REGION_ID, code: "north", name: "North", south: 41, west: -9, north: 44, east: 1 },
  });
  const growers = await invitedGrowers();
  const seconds: number[] = [];
  let exact = 0;
  for (let round = 1; round <= rounds; round++) {
    const began = performance.now();
    const found = await askAtOnce(await openTrial(round), growers);
    seconds.push((performance.now() - began) / 1000);
    const { seats, enrolments, counted, waiting, faults } = found;
    if ([seats, enrolments, counted].every((n) => n === SEATS) && faults === 0 && waiting === HOUSEHOLDS / 2)
      exact++;
    else console.log(`round ${round}: ${JSON.stringify(found)}`);
  }
  const sorted = seconds.sort((a, b) => a - b);
  console.log(
    `${exact} of ${rounds} rounds gave exactly ${SEATS} of ${HOUSEHOLDS} households a seat; a round took ` +
      `${sorted[Math.floor(rounds / 2)]!.toFixed(1)} s (median; the slowest ${sorted.at(-1)!.toFixed(1)} s)`,
  );
  process.exitCode = exact === rounds ? 0 : 1;
} finally {
  await db.$disconnect();
  await server.stop();
}

async function invitedGrowers(): Promise<Actor[]> {
  const actors = Array.from({ length: HOUSEHOLDS }, (_, i) => ({
    ...{ accountId: v7(), growerId: v7(), householdId: v7(), name: `Grower ${i}` },
    ...{ isAdmin: false, mayLead: false },
  }));
  await db.household.createMany({
    data: actors.map(({ householdId }) => ({ id: householdId, joinCode: householdId })),
  });
  await db.grower.createMany({
    data: actors.map(({ growerId, householdId }) => ({ id: growerId, householdId })),
  });
  await db.account.createMany({
    data: actors.map(({ accountId, growerId, name }) => ({
      ...{ id: accountId, growerId, name, email: `${accountId}@example.org`, passwordHash: "none" },
    })),
  });
  return actors;
}

async function openTrial(round: number): Promise<{ id: string; joinCode: string }> {
  const id = v7();
  const joinCode = `round-${round}`;
  const hash = "0".repeat(64);
  await db.trial.create({
    data: {
      ...{ id, slug: joinCode, joinCode, title: `Invented round ${round}`, question: "Who gets a seat?" },
      ...{ invented: true, boxesMin: 2, boxesMax: 6, endsOn: new Date("2099-12-31"), grouping: [] },
      ...{ plan: {}, planHash: hash, seal: hash, lastHash: hash, openedAt: new Date(), status: "open" },
      regions: { create: { regionId: REGION_ID, capacity: SEATS } },
    },
  });
  return { id, joinCode };
}

async function askAtOnce({ id, joinCode }: { id: string; joinCode: string }, growers: readonly Actor[]) {
  const answers = await Promise.all(
    growers.map((grower, i) => {
      const body = { id: v7(), joinCode, regionId: REGION_ID, agreementVersion: AGREEMENT_VERSION } as const;
      const service = db.$transaction((tx) => joinTrial(tx, grower, { ...body, mayWait: i % 2 === 0 }), {
        maxWait: 120_000,
        timeout: 120_000,
      });
      return service.catch(() => null);
    }),
  );
  const region = await db.trialRegion.findFirstOrThrow({ where: { trialId: id } });
  const inLine = await db.waitingPlace.count({ where: { trialId: id } });
  return {
    seats: answers.filter((one) => one?.ok && one.value.standing === "seat").length,
    enrolments: await db.enrolment.count({ where: { trialId: id } }),
    counted: region.seatsTaken,
    /** In line or among those seated: all who would have waited. */
    waiting:
      inLine +
      growers.filter((_, i) => i % 2 === 0 && answers[i]?.ok && answers[i].value.standing === "seat").length,
    faults: answers.filter((one) => one === null).length,
  };
}
