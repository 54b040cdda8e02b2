import { afterAll, beforeAll, expect, it } from "vitest";
import { type Database, openDatabase } from "@/lib/data/client";
import { Prisma } from "@/lib/data/generated/client";
import { type FreshDatabase, freshDatabase } from "../harness/database";

let fresh: FreshDatabase;
let database: Database;

beforeAll(async () => {
  fresh = await freshDatabase();
  database = openDatabase(fresh.appUrl);
});
afterAll(async () => {
  await database.$disconnect();
  await fresh.drop();
});

const models = Object.values(Prisma.ModelName);

it.each(models)("the migrated database has every column that schema.prisma gives %s", async (model) => {
  const delegate = database[(model[0]!.toLowerCase() + model.slice(1)) as "account"];
  expect(await delegate.findMany()).toEqual([]);
});

it("has no table that schema.prisma doesn't know", async () => {
  const tables = await database.$queryRaw<{ count: number }[]>`
    SELECT count(*)::int FROM pg_tables WHERE schemaname = 'public' AND tablename <> '_prisma_migrations'`;
  expect(tables[0]!.count).toBe(models.length);
});
