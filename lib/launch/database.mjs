// The two embedded databases: the one that keeps the user's data, and throwaway ones for tests.
import { randomBytes } from "node:crypto";
import { chmodSync, chownSync, mkdirSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { withClient } from "./client.mjs";
import { asDatabase } from "./database-url.mjs";
import { ensureCluster, startEmbedded } from "./embedded.mjs";
import { findPlace } from "./place.mjs";
import { saveSecrets } from "./secrets.mjs";

const databaseName = "grainlot";

/**
 * Starts the database of earlier starts, or makes it.
 * @param {import("./guard.mjs").Guard} guard
 * @param {{ root: string, stateFolder: string, secrets: import("./secrets.mjs").Secrets }} options
 * @returns {Promise<string>} the owner's connection string
 */
export async function openKeptDatabase(guard, { root, stateFolder, secrets }) {
  const place = findPlace(root, stateFolder, secrets.placeId);
  const dataFolder = await ensureCluster(place, "postgres", secrets.databasePassword, { durable: true });
  const logFile = join(stateFolder, "postgres.log");
  const { port, url } = await startEmbedded(guard, place, dataFolder, {
    password: secrets.databasePassword,
    port: secrets.databasePort,
    logFile,
  });
  if (port !== secrets.databasePort) saveSecrets(stateFolder, { ...secrets, databasePort: port });
  await createMissingDatabase(url);
  return asDatabase(url, databaseName);
}

/** @param {string} maintenanceUrl */
async function createMissingDatabase(maintenanceUrl) {
  await withClient(maintenanceUrl, async (client) => {
    const { rows } = await client.query("SELECT 1 FROM pg_database WHERE datname = $1", [databaseName]);
    if (rows.length === 0) await client.query(`CREATE DATABASE ${databaseName}`);
  });
}

/**
 * Starts an empty server in a temporary folder, which the guardian removes when this process ends. It trades
 * durability for speed.
 * @param {import("./guard.mjs").Guard} guard
 * @param {string} root
 * @returns {Promise<string>} the superuser's connection string, on the maintenance database
 */
export async function openThrowawayDatabase(guard, root) {
  const stateFolder = mkdtempSync(join(tmpdir(), "grainlot-test-"));
  await guard.ask("remove", stateFolder);
  chmodSync(stateFolder, 0o755);
  const place = findPlace(root, stateFolder, "tests");
  if (place.dataParent !== stateFolder) {
    // The project is closed to PostgreSQL's user, but the temporary folder is not.
    place.dataParent = join(stateFolder, "data");
    mkdirSync(place.dataParent);
    if (place.uid !== undefined && place.gid !== undefined) chownSync(place.dataParent, place.uid, place.gid);
  }
  const password = randomBytes(16).toString("hex");
  const dataFolder = await ensureCluster(place, "postgres", password, { durable: false });
  const { url } = await startEmbedded(guard, place, dataFolder, {
    password,
    port: null,
    logFile: join(stateFolder, "postgres.log"),
    settings: ["fsync=off", "synchronous_commit=off", "full_page_writes=off", "max_connections=200"],
  });
  return url;
}
