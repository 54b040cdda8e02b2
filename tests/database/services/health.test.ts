import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Database, openDatabase } from "@/lib/data/client";
import { withClient } from "@/lib/launch/client.mjs";
import { readHealth } from "@/lib/services/health";
import { type FreshDatabase, freshDatabase } from "@/tests/harness/database";

const migrations = fileURLToPath(new URL("../../../prisma/migrations", import.meta.url));

describe("health", () => {
  let fresh: FreshDatabase;
  let client: Database;
  beforeAll(async () => {
    fresh = await freshDatabase();
    client = openDatabase(fresh.appUrl);
  });
  afterAll(async () => {
    await client.$disconnect();
    await fresh.drop();
  });

  it("is ready on a migrated database and names the newest migration", async () => {
    const newest = readdirSync(migrations)
      .filter((name) => !name.includes("."))
      .sort()
      .at(-1);
    const health = await readHealth(() => client);
    expect(health.ready).toBe(true);
    expect(health.database).toMatchObject({
      lastMigration: newest,
      trials: 0,
      boxes: 0,
      grades: 0,
      poolsWaiting: 0,
    });
  });

  it("says how long a result has been waited for, and for how many trials", async () => {
    await withClient(fresh.ownerUrl, async (owner) => {
      await owner.query(`
        INSERT INTO trial (id, slug, title, question, join_code, boxes_min, boxes_max, ends_on, grouping)
        SELECT v::uuid, 'lag-' || n, 'Lag', 'Lag?', 'LAG' || n, 2, 4, '2027-01-01', '[]'
        FROM (VALUES ('0195e000-0000-7000-8000-000000000001', 1), ('0195e000-0000-7000-8000-000000000002', 2)) t (v, n)`);
      await owner.query(`
        INSERT INTO pool_state (trial_id, wanted_at, cut_at)
        VALUES ('0195e000-0000-7000-8000-000000000001', now() - interval '90 seconds', now() - interval '2 hours'),
               ('0195e000-0000-7000-8000-000000000002', now() - interval '3 hours', now() - interval '2 hours')`);
    });
    const { database, ready } = await readHealth(() => client);
    expect(ready).toBe(true);
    expect(database?.poolsWaiting).toBe(1);
    expect(database?.poolLagSeconds).toBeGreaterThanOrEqual(90);
    expect(database?.poolLagSeconds).toBeLessThan(150);
    expect(database?.trials, "drafts are not counted").toBe(0);
  });

  it("is not ready while a migration stands unfinished", async () => {
    await withClient(fresh.ownerUrl, async (owner) => {
      await owner.query(`
        INSERT INTO _prisma_migrations (id, checksum, migration_name, started_at, applied_steps_count)
        VALUES ('broken', 'x', '2099_broken', now(), 0)`);
    });
    const { ready, database } = await readHealth(() => client);
    expect(ready).toBe(false);
    expect(database?.unfinishedMigrations).toBe(1);
  });

  it("is not ready, and does not throw, on a database without tables or without an answer", async () => {
    const empty = await freshDatabase({ migrated: false });
    const there = openDatabase(empty.ownerUrl);
    expect(await readHealth(() => there)).toMatchObject({ ready: false, database: { lastMigration: null } });
    await there.$disconnect();
    await empty.drop();
    const gone = openDatabase(empty.ownerUrl);
    expect(await readHealth(() => gone)).toMatchObject({ ready: false, database: null });
    await gone.$disconnect();
  });
});
