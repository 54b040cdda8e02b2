import { existsSync, readFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { Problem, tail } from "./problem.mjs";

const healthyWithinMs = 60_000;
/** A server that fails on every request (503 is "not yet") does not get better by waiting. */
const faultsAtMost = 3;

/**
 * @param {string} host
 * @param {number} port
 * @throws {Problem} when nothing can listen there
 */
export async function requireFreeAddress(host, port) {
  const code = await new Promise((resolve) => {
    const listener = createServer();
    listener.on("error", (/** @type {NodeJS.ErrnoException} */ error) => resolve(error.code));
    listener.listen({ host, port, exclusive: true }, () => listener.close(() => resolve(null)));
  });
  if (code === null) return;
  if (code === "EADDRINUSE") throw portInUse(host, port);
  if (code === "EACCES")
    throw new Problem(
      `Port ${port} is reserved for the administrator. Choose one above 1023: PORT=3000 npm start.`,
    );
  throw new Problem(
    `HOST is ${host}, where this machine cannot listen (${code}). Set HOST to one of its own addresses, or leave it out for 127.0.0.1.`,
  );
}

/**
 * @param {string} host
 * @param {number} port
 */
function portInUse(host, port) {
  return new Problem(
    `Port ${port} on ${host} is in use. Stop the program that uses it, or choose another port: PORT=${port === 65_535 ? 3000 : port + 1} npm start.`,
  );
}

/**
 * Starts the web server through the guardian and waits until it says that it is healthy.
 * @param {import("./guard.mjs").Guard} guard
 * @param {{ root: string, host: string, port: number, origin: string, env: NodeJS.ProcessEnv, logFile: string | null, development?: boolean }} options
 * @returns {Promise<void>}
 * @throws {Problem} when it does not get there
 */
export async function startServer(guard, { root, host, port, origin, env, logFile, development = false }) {
  const leash = new URL("./leash.mjs", import.meta.url).href;
  const next = [
    "node_modules/next/dist/bin/next",
    development ? "dev" : "start",
    "-H",
    host,
    "-p",
    String(port),
  ];
  const serverEnv = {
    ...env,
    NODE_ENV: development ? "development" : "production",
    NEXT_TELEMETRY_DISABLED: "1",
  };
  let ended = false;
  guard.onEnd(() => {
    ended = true;
  });
  await guard.ask("server", { args: ["--import", leash, ...next], cwd: root, env: serverEnv, logFile });
  const deadline = Date.now() + healthyWithinMs;
  for (let faults = 0; ; await sleep(faults > 0 ? 500 : 50)) {
    const health = await askHealth(origin);
    if (health.status === 200) return;
    if (health.status !== 0 && health.status !== 503) faults++;
    if (ended || faults === faultsAtMost || Date.now() > deadline) {
      throw notServing(host, port, logFile, health.status === 503 ? health.text : "");
    }
  }
}

/**
 * @param {string} origin
 * @returns {Promise<{ status: number, text: string }>} status 0 when there was no answer
 */
async function askHealth(origin) {
  try {
    const response = await fetch(`${origin}/api/health`, { signal: AbortSignal.timeout(10_000) });
    return { status: response.status, text: await response.text() };
  } catch {
    return { status: 0, text: "" };
  }
}

/**
 * @param {string} host
 * @param {number} port
 * @param {string | null} logFile
 * @param {string} health what the health page said last
 */
function notServing(host, port, logFile, health) {
  const log = logFile && existsSync(logFile) ? readFileSync(logFile, "utf8") : "";
  if (/EADDRINUSE/.test(log)) return portInUse(host, port);
  if (log) console.error(tail(log, 30));
  if (health) return new Problem(`The server runs but reports that it is not ready: ${health.slice(0, 500)}`);
  return new Problem(
    `The server could not start; its own words stand above${logFile ? ` and in ${logFile}` : ""}. Correct what they name and start again.`,
  );
}

/**
 * @param {string} root
 * @returns {string}
 */
export const migrationsOf = (root) => join(root, "prisma", "migrations");
