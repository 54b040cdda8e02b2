import { spawn } from "node:child_process";
import { join } from "node:path";
import { text } from "node:stream/consumers";

export interface ChildWork {
  /** What the program does, to begin the sentence that says it failed. */
  readonly what: string;
  /** What it may take before it is killed. */
  readonly seconds: number;
  readonly memoryMb: number;
}

/**
 * Runs one of the bundled programs of dist/ in a process of its own, which neither holds up the pages nor takes
 * their memory, and gives what it wrote. Throws with its own words when it fails, is killed or exceeds its limits.
 * @param program its path, from the folder the server was started in where not absolute
 * @param input for its standard input
 */
export async function runChildProgram(
  program: string,
  input: Uint8Array,
  { what, seconds, memoryMb }: ChildWork,
): Promise<string> {
  const child = spawn(process.execPath, [`--max-old-space-size=${memoryMb}`, program], {
    timeout: seconds * 1000,
    killSignal: "SIGKILL",
    stdio: ["pipe", "pipe", "pipe"],
    env: { NODE_ENV: "production", PATH: process.env.PATH },
  });
  // When the child dies early its end is reported below; a broken pipe says nothing more.
  child.stdin.on("error", () => undefined);
  child.stdin.end(input);
  const ended = new Promise<{ code: number | null; signal: string | null }>((resolve, reject) => {
    child.once("error", reject);
    child.once("close", (code, signal) => resolve({ code, signal }));
  });
  const [output, complaint, { code, signal }] = await Promise.all([
    text(child.stdout),
    text(child.stderr),
    ended,
  ]);
  if (code === 0) return output;
  if (signal === "SIGKILL") throw new Error(`${what} was stopped after ${seconds} s or for want of memory.`);
  throw new Error(`${what} failed: ${complaint.trim().slice(-400) || `it ended with code ${code}`}`);
}

/** The path of a bundled program. */
export function bundledProgram(name: string): string {
  return join(process.cwd(), "dist", name);
}
