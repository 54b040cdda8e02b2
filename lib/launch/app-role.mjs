// The server connects as a role that owns nothing, so that the rules the database holds bind it too.
import { scrypt } from "node:crypto";
import { promisify } from "node:util";
import { withClient } from "./client.mjs";
import { asRole, displayUrl } from "./database-url.mjs";
import { Problem } from "./problem.mjs";

export const appRole = "grainlot_app";

/**
 * The role's password follows from the owner's, so that several launchers on one database agree without sharing a
 * file. It gives away nothing new: whoever has the owner's connection could set it anyway. scrypt keeps it from
 * working backwards to the owner's password by guessing.
 * @param {string} ownerUrl
 * @param {string | undefined} ambientPassword PGPASSWORD, which `pg` uses when the connection string has none
 * @returns {Promise<string>}
 * @throws {Problem} when the owner has no password to derive from
 */
export async function deriveRolePassword(ownerUrl, ambientPassword) {
  const url = new URL(ownerUrl);
  const ownerPassword =
    decodeURIComponent(url.password) || url.searchParams.get("password") || ambientPassword;
  if (!ownerPassword) {
    throw new Problem(
      `DATABASE_URL has no password, from which that of the role ${appRole} would follow. Give ${appRole} a login and name its connection in GRAINLOT_APP_DATABASE_URL.`,
    );
  }
  const key = /** @type {Buffer} */ (
    await promisify(scrypt)(ownerPassword, `${appRole} of ${decodeURIComponent(url.username)}`, 24)
  );
  return key.toString("hex");
}

/**
 * Sees to it that the role can log in, after the migrations have made and limited it.
 * @param {string} ownerUrl
 * @param {string | undefined} ambientPassword
 * @returns {Promise<string>} the role's connection string
 * @throws {Problem} when the owner may not set the role up
 */
export async function ensureAppRole(ownerUrl, ambientPassword) {
  const password = await deriveRolePassword(ownerUrl, ambientPassword);
  const appUrl = asRole(ownerUrl, appRole, password);
  if (!(await canConnect(appUrl))) {
    await withClient(ownerUrl, (client) => setPassword(client, password));
  }
  await requireOwnsNothing(appUrl);
  return appUrl;
}

/** @param {string} url */
function canConnect(url) {
  return withClient(url, async () => true).catch(() => false);
}

/**
 * @param {import("pg").Client} client
 * @param {string} password hexadecimal, so that it needs no quoting
 */
async function setPassword(client, password) {
  // Two launchers at the same moment: PostgreSQL refuses concurrent changes of one role.
  await client.query("SELECT pg_advisory_lock(hashtext($1))", [appRole]);
  try {
    const { rows } = await client.query("SELECT 1 FROM pg_roles WHERE rolname = $1", [appRole]);
    if (rows.length === 0) await client.query(`CREATE ROLE ${appRole}`);
    await client.query(`ALTER ROLE ${appRole} LOGIN PASSWORD '${password}'`);
  } catch (error) {
    if (/** @type {{ code?: string }} */ (error).code !== "42501") throw error;
    throw new Problem(
      `The user of DATABASE_URL may not set up the role ${appRole}. Give it CREATEROLE, or let an administrator give ${appRole} a login and name its connection in GRAINLOT_APP_DATABASE_URL.`,
    );
  }
}

/**
 * @param {string} appUrl
 * @throws {Problem} when that role is a superuser or owns a table: the database could not hold it to anything
 */
export async function requireOwnsNothing(appUrl) {
  const question = `SELECT current_user AS role, rolsuper OR rolbypassrls OR EXISTS (
      SELECT 1 FROM pg_class WHERE relkind IN ('r', 'p') AND pg_has_role(current_user, relowner, 'MEMBER')
        AND relnamespace NOT IN ('pg_catalog'::regnamespace, 'information_schema'::regnamespace)
    ) AS too_strong FROM pg_roles WHERE rolname = current_user`;
  await withClient(
    appUrl,
    async (client) => {
      const { rows } = await client.query(question);
      if (!rows[0].too_strong) return;
      throw new Problem(
        `The role ${rows[0].role} at ${displayUrl(appUrl)} is a superuser or owns tables, so the database could not keep the server from changing what must not change. Use a role without both.`,
      );
    },
    "GRAINLOT_APP_DATABASE_URL",
  );
}
