import { spawn } from "node:child_process";
import { join } from "node:path";
import { text } from "node:stream/consumers";
import { serialize } from "node:v8";
import { z } from "zod";
import type { Pooled, PoolWork } from "@/lib/services/pool-both-ways";
import { poolResultSchema } from "@/shared/schemas/pool";

const MEMORY_MB = 512;
/** Past this the process is killed; the queue tries again later. */
export const POOL_TIMEOUT_S = 120;

const answerSchema = z.object({ result: poolResultSchema, published: poolResultSchema, cut: z.string() });

/**
 * Pools in a process of its own (lib/jobs/pool-child.ts, bundled), with its own memory limit and time limit.
 * @param program its path, from the folder the server was started in where not absolute
 */
export async function poolInProcess(
  work: PoolWork,
  program = join(process.cwd(), "dist", "pool-child.cjs"),
): Promise<Pooled> {
  const child = spawn(process.execPath, [`--max-old-space-size=${MEMORY_MB}`, program], {
    timeout: POOL_TIMEOUT_S * 1000,
    killSignal: "SIGKILL",
    stdio: ["pipe", "pipe", "pipe"],
    env: { NODE_ENV: "production", PATH: process.env.PATH },
  });
  // When the child dies early its end is reported below; a broken pipe says nothing more.
  child.stdin.on("error", () => undefined);
  child.stdin.end(serialize(work));
  const ended = new Promise<{ code: number | null; signal: string | null }>((resolve, reject) => {
    child.once("error", reject);
    child.once("close", (code, signal) => resolve({ code, signal }));
  });
  const [output, complaint, { code, signal }] = await Promise.all([
    text(child.stdout),
    text(child.stderr),
    ended,
  ]);
  if (code === 0) return answerSchema.parse(JSON.parse(output));
  if (signal === "SIGKILL")
    throw new Error(`Pooling was stopped after ${POOL_TIMEOUT_S} s or for want of memory.`);
  throw new Error(`Pooling failed: ${complaint.trim().slice(-400) || `it ended with code ${code}`}`);
}
