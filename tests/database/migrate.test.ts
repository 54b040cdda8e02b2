import { createHash } from "node:crypto";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { migrate, migrationState } from "@/lib/launch/migrate.mjs";
import { migrationsOf } from "@/lib/launch/serve.mjs";
import { type FreshDatabase, freshDatabase } from "../harness/database";
import { root } from "../harness/root";

const first = "20300101_first";
const second = "20300102_second";

let database: FreshDatabase;
let directory: string;
let client: pg.Client;

beforeEach(async () => {
  database = await freshDatabase({ migrated: false });
  directory = mkdtempSync(join(tmpdir(), "grainlot-migrations-"));
  writeMigration(first, "CREATE TABLE first (id int PRIMARY KEY);\nINSERT INTO first VALUES (1);\n");
  writeMigration(second, "CREATE TABLE second (id int PRIMARY KEY);\n");
  client = new pg.Client({ connectionString: database.ownerUrl });
  await client.connect();
});

afterEach(async () => {
  await client.end();
  await database.drop();
  rmSync(directory, { recursive: true });
});

function writeMigration(name: string, sql: string): void {
  mkdirSync(join(directory, name), { recursive: true });
  writeFileSync(join(directory, name, "migration.sql"), sql);
}

const run = () => migrate({ connectionString: database.ownerUrl, directory });
const books = async () =>
  (await client.query("SELECT * FROM _prisma_migrations ORDER BY started_at, migration_name")).rows;
const exists = async (table: string) =>
  (await client.query("SELECT to_regclass($1) IS NOT NULL AS there", [table])).rows[0].there;

describe("migrate", () => {
  it("applies every migration in the order of their names, and a second run applies nothing", async () => {
    expect(await run()).toEqual({ applied: [first, second], total: 2 });
    const after = await books();
    expect(await run()).toEqual({ applied: [], total: 2 });
    expect(await books()).toEqual(after);
    expect((await client.query("SELECT * FROM first")).rows).toEqual([{ id: 1 }]);
  });

  it("applies only what is new", async () => {
    await run();
    writeMigration("20300103_third", "ALTER TABLE second ADD COLUMN note text;");
    expect(await run()).toEqual({ applied: ["20300103_third"], total: 3 });
  });

  // Columns, types and checksum: the table that Prisma Migrate 7 makes on PostgreSQL (from memory).
  it("keeps the books that Prisma keeps", async () => {
    await run();
    const { rows } = await client.query(
      `SELECT column_name, data_type, character_maximum_length AS length, is_nullable, column_default
         FROM information_schema.columns WHERE table_name = '_prisma_migrations' ORDER BY ordinal_position`,
    );
    expect(
      rows.map((row) => [row.column_name, row.data_type, row.length, row.is_nullable, row.column_default]),
    ).toEqual([
      ["id", "character varying", 36, "NO", null],
      ["checksum", "character varying", 64, "NO", null],
      ["finished_at", "timestamp with time zone", null, "YES", null],
      ["migration_name", "character varying", 255, "NO", null],
      ["logs", "text", null, "YES", null],
      ["rolled_back_at", "timestamp with time zone", null, "YES", null],
      ["started_at", "timestamp with time zone", null, "NO", "now()"],
      ["applied_steps_count", "integer", null, "NO", "0"],
    ]);
    const [row] = await books();
    const sql = "CREATE TABLE first (id int PRIMARY KEY);\nINSERT INTO first VALUES (1);\n";
    expect(row.checksum).toBe(createHash("sha256").update(sql).digest("hex"));
    expect(row).toMatchObject({
      migration_name: first,
      logs: null,
      rolled_back_at: null,
      applied_steps_count: 1,
    });
    expect(row.finished_at).toBeInstanceOf(Date);
  });

  it("refuses an edited migration, says which, and applies nothing", async () => {
    await run();
    writeMigration(first, "CREATE TABLE first (id bigint PRIMARY KEY);");
    writeMigration("20300103_third", "CREATE TABLE third (id int);");
    await expect(run()).rejects.toThrow(
      /20300101_first was edited after it had been applied.*new migration/s,
    );
    expect(await exists("third")).toBe(false);
    const state = await migrationState({ connectionString: database.ownerUrl, directory });
    expect(state).toMatchObject({ edited: [first], pending: ["20300103_third"], failed: [] });
  });

  it("takes other line ends for the same migration", async () => {
    await run();
    writeMigration(first, "CREATE TABLE first (id int PRIMARY KEY);\r\nINSERT INTO first VALUES (1);\r\n");
    expect(await run()).toEqual({ applied: [], total: 2 });
  });

  it("records a failed migration, undoes it, and goes on only once it is resolved", async () => {
    writeMigration(
      second,
      "CREATE TABLE second (id int);\nINSERT INTO nowhere VALUES (1);\nCREATE TABLE late (id int);",
    );
    await expect(run()).rejects.toThrow(
      /20300102_second failed: relation "nowhere" does not exist.*migrate resolve/s,
    );
    expect(await exists("second")).toBe(false);
    const row = (await books())[1];
    expect(row).toMatchObject({
      migration_name: second,
      finished_at: null,
      rolled_back_at: null,
      applied_steps_count: 0,
    });
    expect(row.logs).toContain("42P01");

    writeMigration(second, "CREATE TABLE second (id int);");
    await expect(run()).rejects.toThrow(/20300102_second failed before/);
    // What `prisma migrate resolve --rolled-back` writes.
    await client.query("UPDATE _prisma_migrations SET rolled_back_at = now() WHERE migration_name = $1", [
      second,
    ]);
    expect(await run()).toEqual({ applied: [second], total: 2 });
  });

  it("refuses a database that a newer copy has used, and one with foreign tables", async () => {
    await run();
    rmSync(join(directory, second), { recursive: true });
    await expect(run()).rejects.toThrow(/does not know \(20300102_second\).*Update this copy/);

    await client.query("DROP TABLE _prisma_migrations");
    await expect(run()).rejects.toThrow(/tables that Grainlot did not make/);
  });

  it("lets two launchers at once apply each migration once", async () => {
    const outcomes = await Promise.all([run(), run(), run()]);
    expect(outcomes.flatMap((outcome) => outcome.applied).sort()).toEqual([first, second]);
    expect(await books()).toHaveLength(2);
  });
});

it("the project's own migrations apply to an empty database, once", async () => {
  const own = { connectionString: database.ownerUrl, directory: migrationsOf(root) };
  const { applied, total } = await migrate(own);
  expect(applied.length).toBe(total);
  expect(total).toBeGreaterThan(0);
  expect(await migrate(own)).toEqual({ applied: [], total });
});
