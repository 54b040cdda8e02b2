import { spawn } from "node:child_process";

/** @type {Set<import("node:child_process").ChildProcess>} */
const running = new Set();
let ending = false;

/**
 * Runs a program to its end and keeps what it printed. It gets a process group of its own, so that
 * `endRunning` reaches its children too.
 * @param {string} command
 * @param {readonly string[]} args
 * @param {{ cwd?: string, env?: NodeJS.ProcessEnv, uid?: number, gid?: number, timeoutMs?: number, giveUp?: () => boolean, onOutput?: (text: string) => void }} [options]
 *   giveUp is asked every second and ends the program when it says so
 * @returns {Promise<{ code: number | null, output: string }>} code null when a signal ended it; after `endRunning`
 *   it never settles, because this process is about to end
 * @throws {NodeJS.ErrnoException} when the program cannot be started
 */
export function run(command, args, { timeoutMs, giveUp, onOutput, ...options } = {}) {
  if (ending) return new Promise(() => {});
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, { ...options, stdio: ["ignore", "pipe", "pipe"], detached: true });
    running.add(child);
    let output = "";
    const keep = (/** @type {Buffer} */ chunk) => {
      output += chunk.toString("utf8");
      onOutput?.(chunk.toString("utf8"));
    };
    child.stdout.on("data", keep);
    child.stderr.on("data", keep);
    const timer = timeoutMs === undefined ? undefined : setTimeout(() => end(child), timeoutMs);
    const watch = giveUp && setInterval(() => giveUp() && end(child), 1_000);
    const forget = () => {
      running.delete(child);
      clearTimeout(timer);
      clearInterval(watch);
    };
    child.on("error", (error) => {
      forget();
      reject(error);
    });
    child.on("close", (code) => {
      forget();
      if (!ending) resolve({ code, output });
    });
  });
}

/** Ends every program that `run` has under way, with its children. */
export function endRunning() {
  ending = true;
  for (const child of running) end(child);
}

/** @param {import("node:child_process").ChildProcess} child */
function end(child) {
  if (child.pid === undefined) return;
  try {
    process.kill(-child.pid, "SIGKILL");
  } catch {
    child.kill("SIGKILL");
  }
}
