import { randomBytes, randomUUID } from "node:crypto";
import { closeSync, existsSync, fsyncSync, openSync, readFileSync, renameSync, writeSync } from "node:fs";
import { join } from "node:path";
import { Problem } from "./problem.mjs";

/**
 * What the embedded database and demo mode need to keep between starts.
 * @typedef {object} Secrets
 * @property {string} placeId
 * @property {string} databasePassword of the embedded server's superuser
 * @property {number | null} databasePort where it listened last
 * @property {string} sessionSecret
 * @property {string} sealKey 32 bytes as hex
 */

/**
 * @param {string} stateFolder
 * @returns {Secrets} those of an earlier start, or new random ones, saved
 * @throws {Problem} when the file cannot be read
 */
export function loadSecrets(stateFolder) {
  const path = join(stateFolder, "secrets.json");
  if (existsSync(path)) {
    try {
      return JSON.parse(readFileSync(path, "utf8"));
    } catch (error) {
      if (!(error instanceof SyntaxError)) throw error;
      throw new Problem(
        `${path} is damaged. Restore it from a copy; without it the database beside it can't be opened.`,
      );
    }
  }
  const fresh = {
    placeId: randomUUID(),
    databasePassword: randomBytes(24).toString("hex"),
    databasePort: null,
    sessionSecret: randomBytes(32).toString("hex"),
    sealKey: randomBytes(32).toString("hex"),
  };
  saveSecrets(stateFolder, fresh);
  return fresh;
}

/**
 * Written beside and renamed, so that a crash leaves the old file or the new one.
 * @param {string} stateFolder
 * @param {Secrets} secrets
 */
export function saveSecrets(stateFolder, secrets) {
  const path = join(stateFolder, "secrets.json");
  const file = openSync(`${path}.new`, "w", 0o600);
  writeSync(file, `${JSON.stringify(secrets, null, 2)}\n`);
  fsyncSync(file);
  closeSync(file);
  renameSync(`${path}.new`, path);
}
