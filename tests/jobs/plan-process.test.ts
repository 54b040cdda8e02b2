import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { afterAll, beforeAll, expect, test } from "vitest";
import { planTrial } from "@/lib/engine/design/planner/plan-trial";
import { planInProcess } from "@/lib/jobs/plan-process";
import { ASSUMED_DEVIATIONS, type PlannerRequest, plannerRequestSchema } from "@/shared/schemas/planner";

let folder: string;
let program: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "grainlot-plan-"));
  program = join(folder, "plan-child.cjs");
  await build({
    entryPoints: ["lib/jobs/plan-child.ts"],
    outfile: program,
    bundle: true,
    platform: "node",
    format: "cjs",
    logLevel: "error",
  });
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const request: PlannerRequest = plannerRequestSchema.parse({
  arms: { kind: "list", count: 4 },
  boxesPerSet: { min: 2, max: 4 },
  groups: [{ code: "mild", growers: 6, setsPerGrower: 2 }],
  deviations: ASSUMED_DEVIATIONS,
  deviationsFrom: "assumed",
  difference: 0.75,
  cleanTake: null,
  margin: 0.5,
  level: 0.95,
  meetAgainShare: 0,
  seed: "tests",
});

test("a plan made in a process of its own is the plan", async () => {
  expect(await planInProcess(request, program)).toEqual(planTrial(request));
});

test("so is a refusal", async () => {
  const few = {
    ...request,
    groups: [{ code: "mild", growers: 1, setsPerGrower: 1 }],
    boxesPerSet: { min: 2, max: 2 },
  };
  const refused = await planInProcess(few, program);
  expect(refused).toEqual(planTrial(few));
  expect(refused.ok).toBe(false);
});

test("a program that isn't there is a failure with words, not an empty answer", async () => {
  await expect(planInProcess(request, join(folder, "none.cjs"))).rejects.toThrow(/^Planning failed: /);
});
