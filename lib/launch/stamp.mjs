import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";

/**
 * Does `work` unless the file `path` says it was done for the same `value`. The file is removed first and written
 * last, so that an interrupted run counts as not done.
 * @param {string} path
 * @param {string} value
 * @param {() => Promise<void>} work
 */
export async function unlessStamped(path, value, work) {
  if (readStamp(path) === value) return;
  rmSync(path, { force: true });
  await work();
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, value);
}

/** @param {string} path */
function readStamp(path) {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return null;
  }
}
