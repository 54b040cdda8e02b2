import type { PlannerRequest } from "@/shared/schemas/planner";
import type { PlannerRefusal, PlannerResult } from "@/shared/schemas/planner-result";
import { bundledProgram, runChildProgram } from "./child-program";

const LIMITS = { what: "Planning", seconds: 60, memoryMb: 256 };

/** Plans a trial in a process of its own: lib/jobs/plan-child.ts, bundled. Large plans take seconds. */
export async function planInProcess(
  request: PlannerRequest,
  program = bundledProgram("plan-child.cjs"),
): Promise<PlannerResult | PlannerRefusal> {
  const answer = await runChildProgram(program, Buffer.from(JSON.stringify(request)), LIMITS);
  return JSON.parse(answer) as PlannerResult | PlannerRefusal;
}
