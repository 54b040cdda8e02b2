import pg from "pg";
import { v7 } from "uuid";
import { database } from "@/lib/data/client";
import { startDatabaseServer } from "../harness/database-server";
import { createMigratedDatabase } from "../harness/template";
import { type BigTrial, type BigTrialShape, bigTrial, FROM_DRAWS } from "./big-trial";

/** Starts a PostgreSQL of its own with one big trial of so many sets in it, does the work, and ends it. */
export async function withBigTrial(
  sets: number,
  work: (big: BigTrial) => Promise<void>,
  shape?: BigTrialShape,
): Promise<void> {
  const server = await startDatabaseServer();
  try {
    const urls = await createMigratedDatabase(server.url, "big");
    Object.assign(process.env, {
      DATABASE_URL: urls.appUrl,
      GRAINLOT_MODE: "demo",
      NEXTAUTH_SECRET: "0123456789abcdefghijklmnopqrstuvwxyz0123",
      NEXTAUTH_URL: "http://127.0.0.1:3000",
      GRAINLOT_SEAL_KEY: "4f".repeat(32),
      LOG_LEVEL: "silent",
    });
    const big = bigTrial(sets, await newLead(), shape);
    await fill(big);
    const owner = new pg.Client({ connectionString: urls.ownerUrl });
    await owner.connect();
    await owner.query("VACUUM ANALYZE");
    await owner.end();
    await work(big);
  } finally {
    await database().$disconnect();
    await server.stop();
  }
}

async function newLead(): Promise<string> {
  const [householdId, growerId, accountId] = [v7(), v7(), v7()];
  await database().household.create({ data: { id: householdId, joinCode: householdId } });
  await database().grower.create({ data: { id: growerId, householdId } });
  const account = { email: "lead@example.org", name: "Lead", passwordHash: "none", growerId };
  await database().account.create({ data: { id: accountId, ...account } });
  return accountId;
}

async function fill({ rows, variants, regions, households }: BigTrial): Promise<void> {
  await database().$transaction(
    async (tx) => {
      await tx.region.createMany({ data: [...regions] });
      await tx.protocolVariant.createMany({ data: [...variants] });
      for (const { householdId, growerId, siteId, koppenClass } of households) {
        await tx.household.create({ data: { id: householdId, joinCode: householdId } });
        await tx.grower.create({ data: { id: growerId, householdId } });
        await tx.site.create({ data: { id: siteId, growerId, householdId, koppenClass } });
        const account = { email: `${growerId}@example.org`, name: "Grower", passwordHash: "none", growerId };
        await tx.account.create({ data: { id: growerId, ...account } });
      }
      const id = rows.trial.id;
      await tx.trial.createMany({ data: { ...rows.trial, status: "draft" } });
      await tx.trialSecret.createMany({ data: rows.secret });
      await tx.trialLead.createMany({
        data: rows.leadAccountIds.map((accountId) => ({ trialId: id, accountId })),
      });
      await tx.trialRegion.createMany({ data: rows.regions });
      await tx.arm.createMany({ data: rows.arms });
      await tx.trial.update({ where: { id }, data: { ...rows.opened, status: "open" } });
      await tx.enrolment.createMany({ data: rows.enrolments });
      const undrawn = { status: "planned", committedAt: null };
      await tx.outing.createMany({ data: rows.outings.map((outing) => ({ ...outing, ...undrawn })) });
      await tx.draw.createMany({ data: rows.draws });
      for (const statement of FROM_DRAWS) await tx.$executeRawUnsafe(statement);
    },
    { timeout: 600_000 },
  );
}
