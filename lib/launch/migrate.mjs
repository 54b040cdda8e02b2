// Applies prisma/migrations/*/migration.sql and keeps Prisma's own books: the table _prisma_migrations with its
// columns, SHA-256 of each file, and its advisory lock, so that `prisma migrate resolve` and `deploy` go on from here.
import { createHash, randomUUID } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { withClient } from "./client.mjs";
import { explainConnectionError } from "./database-url.mjs";
import { diskFull, isDiskFull, Problem } from "./problem.mjs";

/** The advisory lock that Prisma's schema engine takes on PostgreSQL. */
const prismaLockId = 72707369;
const lockPatience = "120s";

const createBooks = `CREATE TABLE _prisma_migrations (
  id VARCHAR(36) PRIMARY KEY NOT NULL,
  checksum VARCHAR(64) NOT NULL,
  finished_at TIMESTAMPTZ,
  migration_name VARCHAR(255) NOT NULL,
  logs TEXT,
  rolled_back_at TIMESTAMPTZ,
  started_at TIMESTAMPTZ NOT NULL DEFAULT now(),
  applied_steps_count INTEGER NOT NULL DEFAULT 0
)`;

/** @typedef {{ name: string, sql: string }} MigrationFile */
/** @typedef {{ id: string, migration_name: string, checksum: string, finished: boolean, logs: string | null }} BookedMigration */
/** @typedef {{ applied: string[], pending: string[], edited: string[], failed: string[], unknown: string[] }} MigrationState names */

/**
 * @param {{ connectionString: string, directory: string }} options directory: the one that holds a folder per migration
 * @returns {Promise<{ applied: string[], total: number }>} the names applied now, in order, and how many there are in all
 * @throws {Problem} when the books and the files disagree, a migration fails, or the server can't be used
 */
export async function migrate({ connectionString, directory }) {
  const files = readMigrationFiles(directory);
  return withClient(connectionString, async (client) => {
    await takeLock(client);
    if (!(await booksExist(client))) await openBooks(client, connectionString);
    const state = compare(files, await readBooks(client));
    requireSound(state);
    for (const name of state.pending)
      await apply(client, /** @type {MigrationFile} */ (files.find((file) => file.name === name)));
    return { applied: state.pending, total: files.length };
  });
}

/**
 * Compares books and files, and changes nothing.
 * @param {{ connectionString: string, directory: string }} options
 * @returns {Promise<MigrationState>}
 */
export async function migrationState({ connectionString, directory }) {
  const files = readMigrationFiles(directory);
  return withClient(connectionString, async (client) =>
    compare(files, (await booksExist(client)) ? await readBooks(client) : []),
  );
}

/**
 * @param {string} directory
 * @returns {MigrationFile[]} in the order of their names
 */
function readMigrationFiles(directory) {
  if (!existsSync(directory)) return [];
  return readdirSync(directory, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => ({ name, path: join(directory, name, "migration.sql") }))
    .filter(({ path }) => existsSync(path))
    .map(({ name, path }) => ({ name, sql: readFileSync(path, "utf8") }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** @param {string} text */
const sha256 = (text) => createHash("sha256").update(text).digest("hex");

/**
 * A checkout may turn line ends over; like Prisma, either form of the same text is the same migration.
 * @param {string} sql
 * @param {string} checksum
 */
function matches(sql, checksum) {
  const unix = sql.replaceAll("\r\n", "\n");
  return [sql, unix, unix.replaceAll("\n", "\r\n")].some((text) => sha256(text) === checksum);
}

/** @param {import("pg").Client} client */
async function takeLock(client) {
  await client.query(`SET lock_timeout = '${lockPatience}'`);
  try {
    await client.query("SELECT pg_advisory_lock($1)", [prismaLockId]);
  } catch (error) {
    if (/** @type {{ code?: string }} */ (error).code !== "55P03") throw error;
    throw new Problem(
      `Another process has been applying migrations for over ${lockPatience}. Let it finish (or end it) and start again.`,
    );
  }
  await client.query("RESET lock_timeout");
}

/** @param {import("pg").Client} client */
async function booksExist(client) {
  const { rows } = await client.query("SELECT to_regclass('_prisma_migrations') IS NOT NULL AS there");
  return rows[0].there === true;
}

/**
 * @param {import("pg").Client} client
 * @param {string} connectionString
 */
async function openBooks(client, connectionString) {
  await requireEmpty(client);
  await client.query(createBooks).catch((error) => {
    throw explainConnectionError(error, connectionString);
  });
}

/** @param {import("pg").Client} client */
async function requireEmpty(client) {
  const { rows } = await client.query(
    "SELECT count(*)::int AS n FROM pg_class WHERE relnamespace = to_regnamespace(current_schema()) AND relkind IN ('r', 'p', 'v', 'm')",
  );
  if (rows[0].n > 0) {
    throw new Problem(
      "The database holds tables that Grainlot did not make. Give it a database of its own (CREATE DATABASE grainlot) and name that in DATABASE_URL.",
    );
  }
}

/**
 * @param {import("pg").Client} client
 * @returns {Promise<BookedMigration[]>} without those that were rolled back
 */
async function readBooks(client) {
  const { rows } = await client.query(
    "SELECT id, migration_name, checksum, logs, finished_at IS NOT NULL AS finished FROM _prisma_migrations WHERE rolled_back_at IS NULL ORDER BY started_at",
  );
  return rows;
}

/**
 * @param {readonly MigrationFile[]} files
 * @param {readonly BookedMigration[]} books
 * @returns {MigrationState}
 */
function compare(files, books) {
  const bookOf = (/** @type {string} */ name) => books.find((row) => row.migration_name === name);
  const finished = books.filter((row) => row.finished);
  return {
    applied: finished.map((row) => row.migration_name),
    pending: files.filter((file) => !bookOf(file.name)).map((file) => file.name),
    edited: files
      .filter((file) =>
        finished.some((row) => row.migration_name === file.name && !matches(file.sql, row.checksum)),
      )
      .map((file) => file.name),
    failed: books.filter((row) => !row.finished).map((row) => row.migration_name),
    unknown: finished
      .map((row) => row.migration_name)
      .filter((name) => !files.some((file) => file.name === name)),
  };
}

/** @param {MigrationState} state */
function requireSound({ failed, edited, unknown }) {
  if (failed[0] !== undefined) {
    throw new Problem(
      `Migration ${failed[0]} failed before (the column logs of _prisma_migrations says why). ${howToRetry(failed[0])}`,
    );
  }
  if (edited.length > 0) {
    throw new Problem(
      `Migration ${edited[0]} was edited after it had been applied. Restore its file (git checkout prisma/migrations/${edited[0]}) and put the change into a new migration.`,
    );
  }
  if (unknown.length > 0) {
    throw new Problem(
      `The database has a migration that this copy of Grainlot does not know (${unknown[0]}): a newer version has used it. Update this copy and start again.`,
    );
  }
}

/**
 * One query string is one transaction in PostgreSQL, unless the file says otherwise (as CREATE INDEX
 * CONCURRENTLY must, alone in its file). Start and end are booked outside it, as Prisma does, so that a failure stays on record.
 * @param {import("pg").Client} client
 * @param {MigrationFile} file
 */
async function apply(client, { name, sql }) {
  const id = randomUUID();
  await client.query("INSERT INTO _prisma_migrations (id, checksum, migration_name) VALUES ($1, $2, $3)", [
    id,
    sha256(sql),
    name,
  ]);
  try {
    await client.query(sql);
  } catch (error) {
    await client.query("ROLLBACK").catch(() => {});
    await client
      .query("UPDATE _prisma_migrations SET logs = $2 WHERE id = $1", [id, describeFailure(error)])
      .catch(() => {});
    if (isDiskFull(error)) throw diskFull(`migration ${name} was applied`);
    throw new Problem(
      `Migration ${name} failed: ${/** @type {Error} */ (error).message}. ${howToRetry(name, error)}`,
    );
  }
  await client.query(
    "UPDATE _prisma_migrations SET finished_at = now(), applied_steps_count = applied_steps_count + 1 WHERE id = $1",
    [id],
  );
}

/**
 * @param {string} name
 * @param {unknown} [error]
 */
function howToRetry(name, error) {
  const cause =
    /** @type {{ code?: string } | undefined} */ (error)?.code === "42501"
      ? "Let DATABASE_URL name a role that owns the database and may create roles (CREATEROLE)"
      : "Mend its cause";
  return `${cause}, mark it as undone (npx prisma migrate resolve --rolled-back ${name}; or in SQL: UPDATE _prisma_migrations SET rolled_back_at = now() WHERE migration_name = '${name}'), and start again.`;
}

/** @param {unknown} error */
function describeFailure(error) {
  const { message, code, detail, hint, position, where } = /** @type {import("pg").DatabaseError} */ (error);
  return Object.entries({ code, message, detail, hint, position, where })
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => `${key}: ${value}`)
    .join("\n");
}
