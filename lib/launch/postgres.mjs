// One PostgreSQL server as a child of this process: used by the guardian only.
import { spawn } from "node:child_process";
import { closeSync, existsSync, mkdirSync, openSync, readFileSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { isAlive, isServing } from "./processes.mjs";

/**
 * @typedef {object} PostgresOptions
 * @property {string} binaryFolder holds `postgres`
 * @property {string} dataFolder an initialised cluster
 * @property {string} logFile appended to
 * @property {number} port on 127.0.0.1; unix sockets are off
 * @property {number} [uid] to run under when this process is root
 * @property {number} [gid]
 * @property {readonly string[]} [settings] further `name=value` settings
 */

/**
 * @typedef {{ ok: true, child: import("node:child_process").ChildProcess } |
 *   { ok: false, reason: "PORT_IN_USE" | "DISK_FULL" | "OTHER_VERSION" | "FAILED", detail: string }} PostgresStart
 */

const readyWithinMs = 120_000;
const pollMs = 15;

/**
 * Starts the server and waits until it accepts connections. PostgreSQL alone decides whether a lock file in
 * its data folder is stale. Two of its cases need help: a lock whose process is a zombie or has become another
 * program (it looks alive to `kill(pid, 0)`), and a server that outlived the launcher that had started it,
 * which is asked to shut down first.
 * @param {PostgresOptions} options
 * @param {AbortSignal} cancelled no further attempt is made once it fires
 * @param {(child: import("node:child_process").ChildProcess) => void} onSpawn told of each child before it is ready
 * @returns {Promise<PostgresStart>}
 */
export async function startPostgres(options, cancelled, onSpawn) {
  const deadline = Date.now() + readyWithinMs;
  let disregardedPid;
  for (;;) {
    if (cancelled.aborted) return { ok: false, reason: "FAILED", detail: "stopped before it had started" };
    const attempt = await attemptStart(options, deadline, disregardedPid, onSpawn);
    if (attempt.ok || attempt.reason !== "FAILED" || Date.now() > deadline) return attempt;
    if (/lock file "postmaster.pid" already exists/.test(attempt.detail)) {
      const holder = lockHolder(options.dataFolder);
      if (holder !== null && isServing(holder, options.dataFolder)) await shutDownStranger(holder, deadline);
      else disregardedPid = holder ?? undefined;
    } else if (/pre-existing shared memory block/.test(attempt.detail)) {
      // Backends of a killed server notice within moments and leave.
      await sleep(300);
    } else {
      return attempt;
    }
  }
}

/**
 * @param {PostgresOptions} options
 * @param {number} deadline epoch milliseconds
 * @param {number | undefined} disregardedPid
 * @param {(child: import("node:child_process").ChildProcess) => void} onSpawn
 * @returns {Promise<PostgresStart>}
 */
async function attemptStart(options, deadline, disregardedPid, onSpawn) {
  const { binaryFolder, dataFolder, logFile, port, uid, gid, settings = [] } = options;
  mkdirSync(dirname(logFile), { recursive: true });
  const logStart = existsSync(logFile) ? statSync(logFile).size : 0;
  const log = openSync(logFile, "a", 0o600);
  const assigned = [
    "listen_addresses=127.0.0.1",
    "unix_socket_directories=",
    `port=${port}`,
    "timezone=UTC",
    ...settings,
  ];
  /** @type {NodeJS.ProcessEnv} */
  const env = { PATH: process.env.PATH, TZ: "UTC", LC_ALL: "C" };
  // PostgreSQL ignores a lock held by this process id; everything else it checks as always.
  if (disregardedPid !== undefined) env.PG_GRANDPARENT_PID = String(disregardedPid);
  const child = spawn(
    join(binaryFolder, "postgres"),
    ["-D", dataFolder, ...assigned.flatMap((each) => ["-c", each])],
    {
      cwd: "/",
      env,
      stdio: ["ignore", log, log],
      ...(uid === undefined ? {} : { uid, gid }),
    },
  );
  closeSync(log);
  onSpawn(child);
  const failure = () => classify(readFileSync(logFile, "utf8").slice(logStart));
  let spawnError = /** @type {Error | null} */ (null);
  child.on("error", (error) => {
    spawnError = error;
  });
  while (!isReady(dataFolder, child.pid)) {
    if (spawnError) return { ok: false, reason: "FAILED", detail: spawnError.message };
    if (child.exitCode !== null || child.signalCode !== null) return failure();
    if (Date.now() > deadline) {
      child.kill("SIGQUIT");
      return {
        ok: false,
        reason: "FAILED",
        detail: `PostgreSQL was not ready within ${readyWithinMs / 1000} s`,
      };
    }
    await sleep(pollMs);
  }
  return { ok: true, child };
}

/**
 * @param {string} log
 * @returns {PostgresStart}
 */
function classify(log) {
  const fatal =
    log.split("\n").find((line) => /FATAL|PANIC/.test(line)) ?? log.trim().split("\n").at(-1) ?? "";
  const detail = fatal.replace(/^.*?(FATAL|PANIC):\s*/, "");
  if (/Address already in use|could not create any TCP\/IP sockets/.test(log))
    return { ok: false, reason: "PORT_IN_USE", detail };
  if (/No space left on device/.test(log)) return { ok: false, reason: "DISK_FULL", detail };
  if (/incompatible with server/.test(log)) return { ok: false, reason: "OTHER_VERSION", detail };
  return { ok: false, reason: "FAILED", detail };
}

/**
 * The postmaster writes its state into line 8 of its lock file, as pg_ctl reads it.
 * @param {string} dataFolder
 * @param {number | undefined} pid
 */
function isReady(dataFolder, pid) {
  const lines = lockLines(dataFolder);
  return pid !== undefined && Number(lines[0]) === pid && lines[7]?.trim() === "ready";
}

/** @param {string} dataFolder */
function lockLines(dataFolder) {
  try {
    return readFileSync(join(dataFolder, "postmaster.pid"), "utf8").split("\n");
  } catch {
    return [];
  }
}

/**
 * @param {string} dataFolder
 * @returns {number | null} the process id in its lock file
 */
function lockHolder(dataFolder) {
  const pid = Number(lockLines(dataFolder)[0]);
  return Number.isInteger(pid) && pid > 0 ? pid : null;
}

/**
 * @param {number} pid
 * @param {number} deadline epoch milliseconds
 */
async function shutDownStranger(pid, deadline) {
  process.kill(pid, "SIGINT");
  while (isAlive(pid) && Date.now() < deadline) await sleep(pollMs);
}

/**
 * Fast shutdown; the immediate one (safe, but recovers at the next start) if that takes too long.
 * @param {import("node:child_process").ChildProcess} child
 */
export async function stopPostgres(child) {
  for (const [signal, patienceMs] of /** @type {const} */ ([
    ["SIGINT", 60_000],
    ["SIGQUIT", 10_000],
    ["SIGKILL", 5_000],
  ])) {
    child.kill(signal);
    for (const end = Date.now() + patienceMs; Date.now() < end; await sleep(pollMs)) {
      if (child.exitCode !== null || child.signalCode !== null) return;
    }
  }
}
