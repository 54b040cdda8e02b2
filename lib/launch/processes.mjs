import { execFileSync } from "node:child_process";
import { readFileSync, readlinkSync, realpathSync } from "node:fs";

/**
 * @param {number} pid
 * @param {string} dataFolder
 * @returns {boolean} whether that process is a living server of this folder; a zombie is none
 */
export function isServing(pid, dataFolder) {
  if (!isAlive(pid)) return false;
  if (process.platform !== "linux") return processLine(pid).includes(dataFolder);
  try {
    // A server's working directory is its data folder.
    return readlinkSync(`/proc/${pid}/cwd`) === realpathSync(dataFolder);
  } catch (error) {
    return /** @type {NodeJS.ErrnoException} */ (error).code !== "ENOENT";
  }
}

/**
 * @param {number} pid
 * @returns {boolean} false for a zombie
 */
export function isAlive(pid) {
  try {
    process.kill(pid, 0);
  } catch (error) {
    return /** @type {NodeJS.ErrnoException} */ (error).code === "EPERM";
  }
  if (process.platform !== "linux") return !/^($|Z)/.test(processLine(pid));
  try {
    const state = readFileSync(`/proc/${pid}/stat`, "utf8").replace(/^.*\) /s, "")[0];
    return state !== "Z" && state !== "X";
  } catch {
    return false;
  }
}

/**
 * @param {number} pid
 * @returns {string} state and command line where there is no /proc; "" when there is no such process
 */
function processLine(pid) {
  try {
    return execFileSync("ps", ["-o", "stat=,command=", "-p", String(pid)], { encoding: "utf8" }).trim();
  } catch {
    return "";
  }
}
