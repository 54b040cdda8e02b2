import pg from "pg";
import { afterAll, beforeAll, expect, it } from "vitest";
import { ensureAppRole, requireOwnsNothing } from "@/lib/launch/app-role.mjs";
import { withClient } from "@/lib/launch/client.mjs";
import { asRole } from "@/lib/launch/database-url.mjs";
import { type FreshDatabase, freshDatabase } from "../harness/database";

let database: FreshDatabase;

beforeAll(async () => {
  database = await freshDatabase();
});
afterAll(() => database.drop());

it("gives every launcher the same connection, as a role that owns nothing and can't make anything", async () => {
  const [one, other] = await Promise.all([
    ensureAppRole(database.ownerUrl, undefined),
    ensureAppRole(database.ownerUrl, undefined),
  ]);
  expect(one).toBe(other);
  const client = new pg.Client({ connectionString: one });
  await client.connect();
  try {
    expect((await client.query("SELECT current_user AS name")).rows[0].name).toBe("grainlot_app");
    await expect(client.query("CREATE TABLE public.mine (id int)")).rejects.toThrow(/permission denied/);
    await expect(client.query("DROP TABLE _prisma_migrations")).rejects.toThrow(
      /must be owner|permission denied/,
    );
  } finally {
    await client.end();
  }
});

it("refuses a role that owns the tables", async () => {
  await expect(requireOwnsNothing(database.ownerUrl)).rejects.toThrow(
    /superuser or owns tables.*Use a role without both/,
  );
});

it("says what to do when the owner may not set up roles", async () => {
  const limited = asRole(database.ownerUrl, "limited_owner", "limited");
  await withClient(database.ownerUrl, (client) =>
    client.query("CREATE ROLE limited_owner LOGIN PASSWORD 'limited'"),
  );
  try {
    await expect(ensureAppRole(limited, undefined)).rejects.toThrow(
      /may not set up the role grainlot_app.*CREATEROLE/,
    );
  } finally {
    await withClient(database.ownerUrl, (client) => client.query("DROP ROLE limited_owner"));
  }
});
