// A small process between the launcher and what it starts. It runs in a session of its own, so that Ctrl-C in
// the terminal reaches the launcher only, and holds the other end of the launcher's channel: when that closes,
// for whatever reason, it ends the web server, then the database, then itself.
import { spawn } from "node:child_process";
import { randomUUID } from "node:crypto";
import { closeSync, mkdirSync, openSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { connect, createServer } from "node:net";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { startPostgres, stopPostgres } from "./postgres.mjs";

const serverGraceMs = 5_000;

/** @type {import("node:child_process").ChildProcess | null} */
let database = null;
/** @type {import("node:child_process").ChildProcess | null} */
let server = null;
/** @type {string[]} */
const leftovers = [];
const stopping = new AbortController();
let hurried = false;

process.on("disconnect", () => stop());
for (const signal of /** @type {const} */ (["SIGINT", "SIGTERM", "SIGHUP"])) process.on(signal, () => stop());

/** What the launcher may ask for, by name. @type {Record<string, (argument: any) => Promise<unknown> | unknown>} */
const requests = {
  claim,
  postgres: ensurePostgres,
  server: startServer,
  remove: (path) => void leftovers.push(path),
  stop,
  hurry,
};

process.on(
  "message",
  async (/** @type {{ id: number, name: string, argument: unknown }} */ { id, name, argument }) => {
    try {
      reply({ id, value: await requests[name]?.(argument) });
    } catch (error) {
      reply({ id, error: error instanceof Error ? error.message : String(error) });
    }
  },
);

/** @param {object} message */
function reply(message) {
  if (process.connected) process.send?.(message);
}

/**
 * Says in `folder` that this launcher is at work, and looks for another one. A claim counts only while its
 * guardian answers on its port with its token: neither a process id nor a file proves that anything is alive.
 * @param {{ folder: string, origin: string }} argument
 * @returns {Promise<{ origin: string, launcherPid: number } | null>} the launcher that was there before, if any
 */
async function claim({ folder, origin }) {
  const token = randomUUID();
  const listener = createServer((socket) => {
    socket.on("error", () => socket.destroy());
    socket.end(token);
  });
  await new Promise((resolve) => listener.listen(0, "127.0.0.1", () => resolve(undefined)));
  listener.unref();
  const { port } = /** @type {import("node:net").AddressInfo} */ (listener.address());
  mkdirSync(folder, { recursive: true });
  const own = join(folder, `${process.pid}.json`);
  writeFileSync(own, JSON.stringify({ port, token, origin, launcherPid: process.ppid }), { mode: 0o600 });
  leftovers.push(own);
  for (const name of readdirSync(folder)) {
    const path = join(folder, name);
    if (path === own) continue;
    const other = readClaim(path);
    if (other && (await answer(other.port)) === other.token)
      return { origin: other.origin, launcherPid: other.launcherPid };
    rmSync(path, { force: true });
  }
  return null;
}

/** @param {string} path */
function readClaim(path) {
  try {
    return /** @type {{ port: number, token: string, origin: string, launcherPid: number }} */ (
      JSON.parse(readFileSync(path, "utf8"))
    );
  } catch {
    return null;
  }
}

/**
 * @param {number} port
 * @returns {Promise<string>} what is said there within a second
 */
function answer(port) {
  return new Promise((resolve) => {
    let heard = "";
    const socket = connect(port, "127.0.0.1");
    const finish = () => {
      socket.destroy();
      resolve(heard);
    };
    socket.setTimeout(1_000, finish);
    socket.on("data", (chunk) => {
      heard += chunk;
    });
    socket.on("end", finish);
    socket.on("error", finish);
  });
}

/** @param {import("./postgres.mjs").PostgresOptions} options */
async function ensurePostgres(options) {
  const started = await startPostgres(options, stopping.signal, (child) => {
    database = child;
  });
  if (!started.ok) return started;
  started.child.on("exit", () => {
    if (!stopping.signal.aborted) reply({ event: "database-exit" });
  });
  return { ok: true, pid: started.child.pid };
}

/**
 * @param {{ args: string[], cwd: string, env: NodeJS.ProcessEnv, logFile: string | null }} argument logFile null: the launcher's own output
 */
function startServer({ args, cwd, env, logFile }) {
  const log = logFile === null ? "inherit" : openSync(logFile, "w", 0o600);
  server = spawn(process.execPath, args, { cwd, env, stdio: ["pipe", log, log], detached: true });
  if (typeof log === "number") closeSync(log);
  server.stdin?.on("error", () => {});
  server.on("exit", (code) => reply({ event: "server-exit", code }));
  server.on("error", () => reply({ event: "server-exit", code: null }));
  return { pid: server.pid };
}

/** No more waiting for open requests. */
function hurry() {
  hurried = true;
}

async function stop() {
  if (stopping.signal.aborted) return;
  stopping.abort();
  if (server) await stopServer(server);
  if (database) await stopPostgres(database);
  for (const path of leftovers) rmSync(path, { recursive: true, force: true });
  process.exit(0);
}

/**
 * Ends the server politely, then whatever is left of its process group (child processes included).
 * @param {import("node:child_process").ChildProcess} child
 */
async function stopServer(child) {
  child.kill("SIGTERM");
  for (const end = Date.now() + serverGraceMs; Date.now() < end && !hurried; await sleep(20)) {
    if (child.exitCode !== null || child.signalCode !== null) break;
  }
  try {
    if (child.pid !== undefined) process.kill(-child.pid, "SIGKILL");
  } catch {
    // The group is gone already.
  }
}
