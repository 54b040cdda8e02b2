// The launcher's side of the guardian.
import { fork } from "node:child_process";
import { fileURLToPath } from "node:url";
import { isAlive } from "./processes.mjs";

/**
 * @typedef {object} Guard
 * @property {number | undefined} pid of the guardian
 * @property {(name: string, argument: unknown) => Promise<any>} ask
 * @property {(listener: (event: "server-exit" | "database-exit" | "guardian-exit") => void) => void} onEnd something ended unasked
 * @property {() => Promise<void>} close ends the server and the database, and waits until they are gone
 * @property {() => void} hurry
 */

/**
 * Starts the guardian. Everything it starts ends with this process.
 * @returns {Guard}
 */
export function startGuard() {
  const child = fork(fileURLToPath(new URL("./guardian.mjs", import.meta.url)), [], {
    detached: true,
    execArgv: [],
    stdio: ["ignore", "inherit", "inherit", "ipc"],
  });
  /** @type {Map<number, { resolve: (value: any) => void, reject: (error: Error) => void }>} */
  const waiting = new Map();
  /** @type {Set<number>} */
  const started = new Set();
  /** @type {(event: "server-exit" | "database-exit" | "guardian-exit") => void} */
  let listener = () => {};
  let lastId = 0;
  let closing = false;

  child.on("message", (/** @type {any} */ message) => {
    if (message.event) return closing ? undefined : listener(message.event);
    const asked = waiting.get(message.id);
    waiting.delete(message.id);
    if (message.value?.pid) started.add(message.value.pid);
    if (message.error === undefined) asked?.resolve(message.value);
    else asked?.reject(new Error(message.error));
  });
  const ended = new Promise((resolve) => child.on("exit", resolve));
  child.on("exit", () => {
    for (const { reject } of waiting.values()) reject(new Error("the guardian process ended"));
    waiting.clear();
    if (!closing) {
      // Nobody but us is left to end what it had started. SIGINT is PostgreSQL's fast shutdown.
      for (const pid of started) if (isAlive(pid)) process.kill(pid, "SIGINT");
      listener("guardian-exit");
    }
  });

  const ask = (/** @type {string} */ name, /** @type {unknown} */ argument) =>
    new Promise((resolve, reject) => {
      if (!child.connected) return reject(new Error("the guardian process is gone"));
      const id = ++lastId;
      waiting.set(id, { resolve, reject });
      child.send({ id, name, argument });
    });
  return {
    pid: child.pid,
    ask,
    onEnd: (given) => {
      listener = given;
    },
    hurry: () => void (child.connected && child.send({ id: 0, name: "hurry" })),
    close: async () => {
      closing = true;
      if (child.connected) child.send({ id: 0, name: "stop" });
      await ended;
    },
  };
}
