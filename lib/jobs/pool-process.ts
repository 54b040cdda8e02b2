import { serialize } from "node:v8";
import { z } from "zod";
import type { Pooled, PoolWork } from "@/lib/services/pool-both-ways";
import { poolResultSchema } from "@/shared/schemas/pool";
import { bundledProgram, runChildProgram } from "./child-program";

const MEMORY_MB = 512;
/** Past this the process is killed; the queue tries again later. */
export const POOL_TIMEOUT_S = 120;

const answerSchema = z.object({ result: poolResultSchema, published: poolResultSchema, cut: z.string() });

/** Pools in a process of its own: lib/jobs/pool-child.ts, bundled. */
export async function poolInProcess(
  work: PoolWork,
  program = bundledProgram("pool-child.cjs"),
): Promise<Pooled> {
  const limits = { what: "Pooling", seconds: POOL_TIMEOUT_S, memoryMb: MEMORY_MB };
  return answerSchema.parse(JSON.parse(await runChildProgram(program, serialize(work), limits)));
}
