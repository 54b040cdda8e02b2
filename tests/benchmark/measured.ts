import { spawn } from "node:child_process";
import { closeSync, openSync, readFileSync } from "node:fs";

/** What a whole process took, from its start to its end. */
export interface Measured {
  readonly code: number | null;
  /** User and system time, to 0.01 s. */
  readonly processorS: number;
  /** Largest resident memory, 10⁶ bytes. */
  readonly peakMb: number;
}

const TICKS_PER_S = 100;
const LOOK_EVERY_MS = 20;

/**
 * Runs a program, its standard output going into a file. Linux only: processor time is what the kernel adds to this
 * process' ended children, memory the child's own high-water mark, looked at until it ends.
 */
export function measured(command: string, args: readonly string[], outputPath: string): Promise<Measured> {
  const output = openSync(outputPath, "w");
  const before = childrenTicks();
  const child = spawn(command, args, { stdio: ["ignore", output, "inherit"] });
  let peakMb = 0;
  const look = setInterval(() => {
    peakMb = Math.max(peakMb, highWaterMb(child.pid));
  }, LOOK_EVERY_MS);
  return new Promise((resolve, reject) => {
    const end = (): void => {
      clearInterval(look);
      closeSync(output);
    };
    child.on("error", (error) => {
      end();
      reject(error);
    });
    child.on("close", (code) => {
      end();
      resolve({ code, processorS: (childrenTicks() - before) / TICKS_PER_S, peakMb });
    });
  });
}

/** Fields 16 and 17 of proc(5)'s stat; the name in field 2 may hold spaces. */
function childrenTicks(): number {
  const fields = readFileSync("/proc/self/stat", "utf8").split(") ").at(-1)!.split(" ");
  return Number(fields[13]) + Number(fields[14]);
}

function highWaterMb(pid: number | undefined): number {
  try {
    const [, kib] = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, "utf8")) ?? [];
    return (Number(kib ?? 0) * 1024) / 1e6;
  } catch {
    // It has ended.
    return 0;
  }
}
