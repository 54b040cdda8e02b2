import { text } from "node:stream/consumers";
import { planTrial } from "@/lib/engine/design/planner/plan-trial";
import type { PlannerRequest } from "@/shared/schemas/planner";

/** A program of its own, so that a large plan doesn't hold up the pages. JSON of the request in, of the answer out. */
async function main(): Promise<void> {
  const request = JSON.parse(await text(process.stdin)) as PlannerRequest;
  process.stdout.write(JSON.stringify(planTrial(request)));
}

main().catch((fault: unknown) => {
  process.stderr.write(`${fault instanceof Error ? fault.message : String(fault)}\n`);
  process.exitCode = 1;
});
