import { describe, expect, it } from "vitest";
import { adviceByGroup } from "@/app/lead/trials/[id]/design/_components/advice-words";
import { placesOf } from "@/app/lead/trials/[id]/design/_components/places";
import { planTrial } from "@/lib/engine/design/planner/plan-trial";
import { basisOf, chanceOf } from "@/lib/services/lead/design";
import { type PlannerRequest, plannerRequestSchema } from "@/shared/schemas/planner";
import type { PlannerResult } from "@/shared/schemas/planner-result";

const names = new Map([
  ["wet", "Mild wet"],
  ["dry", "Dry"],
]);

function ask(
  growers: readonly [number, number],
  arms = 6,
): { request: PlannerRequest; result: PlannerResult } {
  const request = plannerRequestSchema.parse({
    arms: { kind: "list", count: arms },
    boxesPerSet: { min: 3, max: 3 },
    groups: [
      { code: "wet", growers: growers[0], setsPerGrower: 2 },
      { code: "dry", growers: growers[1], setsPerGrower: 2 },
    ],
    deviations: { grower: 0.5, growerArm: 0.5, outing: 0.5, residual: 1 },
    deviationsFrom: "assumed",
    difference: 0.75,
    cleanTake: null,
    margin: 0.5,
    level: 0.95,
    meetAgainShare: 0.2,
    seed: "found",
  });
  const result = planTrial(request);
  if (!result.ok) throw new Error(result.reason);
  return { request, result };
}

describe("what the planner found, on the screen", () => {
  it("is shown once for groups that expect the same, and apart where they differ", () => {
    const alike = placesOf(ask([20, 20]).result, names);
    expect(alike.map(({ heading }) => heading)).toEqual([
      "In each climate group",
      "All climate groups together",
    ]);
    const apart = placesOf(ask([20, 12]).result, names);
    expect(apart.map(({ heading }) => heading)).toEqual(["Mild wet", "Dry", "All climate groups together"]);
  });

  it("says that recipes are too many, with a number that would do, and names groups only where they differ", () => {
    const { result } = ask([40, 40], 12);
    const [first] = adviceByGroup(result.advice, names);
    expect(first!.sentence).toMatch(/^12 recipes are too many for 40 growers; \d+ would do\.$/);
    expect(first!.groups).toEqual([]);
    const apart = adviceByGroup(ask([200, 10]).result.advice, names);
    expect(apart.some(({ groups }) => groups.join() === "Dry")).toBe(true);
  });

  it("goes into the plan from the group that finds least", () => {
    const { request, result } = ask([60, 15]);
    const [design] = result.designs;
    const basis = basisOf(request, result, design!)!;
    const dry = design!.groups.find(({ group }) => group === "dry")!;
    expect(basis).toMatchObject({ growersPerGroup: 15, setsPerGrower: 2, boxesPerSet: 3, alpha: 0.05 });
    expect(basis.power).toBe(chanceOf(dry));
    expect(basis.power).toBeLessThan(
      Math.min(...design!.groups.filter((each) => each !== dry).map(chanceOf)),
    );
  });
});
