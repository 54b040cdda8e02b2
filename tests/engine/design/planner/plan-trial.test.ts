import { describe, expect, it } from "vitest";
import { planTrial } from "@/lib/engine/design/planner/plan-trial";
import { plannerRequestSchema } from "@/shared/schemas/planner";
import type { PlannerResult } from "@/shared/schemas/planner-result";
import { cases } from "./reference";

const base = {
  arms: { kind: "list", count: 12 },
  boxesPerSet: { min: 3, max: 3 },
  groups: [{ code: "all", growers: 40, setsPerGrower: 2 }],
  deviations: { grower: 0.5, growerArm: 0.5, outing: 0.5, residual: 1 },
  deviationsFrom: "assumed",
  difference: 0.55,
  cleanTake: null,
  margin: 0.5,
  level: 0.95,
  meetAgainShare: 0,
  seed: "tests",
};

const planned = new Map<string, PlannerResult>();

/** A plan takes part of a second, and the same request always has the same answer. */
function plan(changes: object): PlannerResult {
  const key = JSON.stringify(changes);
  const known = planned.get(key);
  if (known) return known;
  const result = planTrial(plannerRequestSchema.parse({ ...base, ...changes }));
  if (!result.ok) throw new Error(result.reason);
  planned.set(key, result);
  return result;
}

function complete(arms: number, growers: number, setsPerGrower: number, changes: object = {}) {
  const result = plan({
    arms: { kind: "list", count: arms },
    boxesPerSet: { min: arms, max: arms },
    groups: [{ code: "all", growers, setsPerGrower }],
    ...changes,
  });
  return { result, figures: result.designs[0]!.groups[0]!, growth: result.designs[0]!.groups[0]!.growth! };
}

describe("growers before sets", () => {
  // 60 complete sets, difference .55, σ_ga .5, σ_e 1. R simulated the t test over growers 20,000 times.
  it.each(cases.completeSets)(
    "60 complete sets as $growers growers × $sets find it in $power",
    (simulated) => {
      for (const arms of [2, 6]) {
        const { growth } = complete(arms, simulated.growers, simulated.sets);
        expect(Math.abs(growth.power - simulated.power)).toBeLessThan(4 * simulated.error);
        expect(growth.df).toBe(simulated.growers - 1);
      }
    },
  );

  it("are 40, 58 and 76 %, which more growers with fewer sets would have", () => {
    expect(complete(6, 10, 6).growth.power).toBeCloseTo(0.4, 2);
    expect(complete(6, 20, 3).growth.power).toBeCloseTo(0.58, 2);
    expect(complete(6, 60, 1).growth.power).toBeCloseTo(0.755, 2);
    expect(complete(6, 10, 6).result.advice).toContainEqual(
      expect.objectContaining({ code: "GROWERS_BEFORE_SETS", growersInstead: 60, setsInstead: 1 }),
    );
  });

  it("count as many complete growers as there are", () => {
    expect(complete(5, 17, 3).growth.completeGrowers).toBeCloseTo(17, 9);
  });
});

describe("a trial with incomplete sets", () => {
  // lme4 and lmerTest in R: share of simulated trials in which the mixed model's own t test rejects. Its degrees of
  // freedom are higher than growers − 1, so the plan is a little on the safe side.
  it("finds about what a mixed model finds in simulated trials", () => {
    const { arms, sd, difference, result } = cases.mixedModel;
    const [grower, outing, growerArm, residual] = sd;
    const { designs } = plan({
      arms: { kind: "list", count: arms },
      groups: [{ code: "all", growers: 24, setsPerGrower: 2 }],
      deviations: { grower, outing, growerArm, residual },
      difference,
    });
    const cyclic = designs.find(({ kind }) => kind === "cyclic")!.groups[0]!.growth!;
    expect(cyclic.power).toBeLessThan(result.power + 3 * result.error);
    expect(cyclic.power).toBeGreaterThan(result.power - 0.06 - 3 * result.error);
  });

  // The simulated test is another one than the closed form; they meet within Monte Carlo error and two points.
  it("is simulated to about the closed form, in every design", () => {
    for (const { groups } of plan({ difference: 0.9 }).designs) {
      const { power, simulated } = groups[0]!.growth!;
      expect(Math.abs(power - simulated!.power)).toBeLessThan(3 * simulated!.monteCarloError + 0.02);
      expect(simulated!.runs).toBeGreaterThanOrEqual(400);
    }
  });

  it("offers every kind there is, none above its bound, the best first", () => {
    const { designs } = plan({ groups: [{ code: "all", growers: 44, setsPerGrower: 2 }] });
    expect(new Set(designs.map(({ kind }) => kind))).toEqual(
      new Set(["balanced", "resolvable", "cyclic", "optimised"]),
    );
    for (const { groups } of designs) {
      const { efficiency, efficiencyBound } = groups[0]!;
      expect(efficiency).toBeLessThanOrEqual(efficiencyBound.value + 1e-12);
    }
    // 88 sets are the balanced design of 44 twice: at the bound 8/11.
    const balanced = designs.find(({ kind }) => kind === "balanced")!;
    expect(balanced.period).toBe(44);
    expect(balanced.groups[0]!.efficiency).toBeCloseTo(8 / 11, 12);
    const powers = designs.map(({ groups }) => Math.round(100 * groups[0]!.growth!.power));
    expect(powers).toEqual(powers.toSorted((a, b) => b - a));
  });

  it("says how many recipes would do, and that they do", () => {
    const { advice } = plan({ difference: 0.9 });
    const fewer = advice.find(({ code }) => code === "FEWER_ARMS");
    if (fewer?.code !== "FEWER_ARMS") throw new Error("no advice on fewer recipes");
    const powerWith = (count: number) =>
      plan({ arms: { kind: "list", count }, difference: 0.9 }).designs[0]!.groups[0]!.growth!.power;
    expect(powerWith(fewer.armsThatDo)).toBeGreaterThanOrEqual(0.79);
    expect(powerWith(fewer.armsThatDo + 1)).toBeLessThan(0.81);
  });

  it("needs the growers it says", () => {
    const needed = plan({}).designs[0]!.groups[0]!.growth!.needed[0]!;
    const more = plan({ groups: [{ code: "all", growers: needed.growers, setsPerGrower: 2 }] });
    expect(more.designs[0]!.groups[0]!.growth!.power).toBeCloseTo(0.8, 1);
    expect(needed.boxes).toBe(needed.growers * 6);
  });

  it("tells growers' likings from chance once the share it names meets a recipe again", () => {
    const share = plan({}).designs[0]!.groups[0]!.separability.shareNeeded!;
    expect(share).toBeGreaterThan(0);
    expect(plan({}).designs[0]!.groups[0]!.separability.separable).toBe(false);
    const { separability } = plan({ meetAgainShare: Math.min(1, share + 0.1) }).designs[0]!.groups[0]!;
    expect(separability.separable).toBe(true);
  });
});

describe("clean growth", () => {
  // 60 growers, one box of each of two recipes, nothing that a grower's boxes share: the difference of independent
  // shares .3 and .5 has the variance (.21 + .25)/60.
  it("with next to no spread among growers is the two shares' own variance", () => {
    const tiny = { grower: 1e-6, growerArm: 1e-6, outing: 1e-6, residual: 1 };
    const { figures } = complete(2, 60, 1, {
      deviations: tiny,
      cleanTake: { baseShare: 0.3, difference: 0.2 },
    });
    const clean = figures.cleanTake!;
    // Normal approximation: Φ(.2/√((.21 + .25)/60) − 1.96) = Φ(.324) = .627.
    expect(Math.abs(clean.power - 0.627)).toBeLessThan(3 * clean.monteCarloError + 0.02);
  });

  it("is found more easily by more growers, and the same seed finds the same", () => {
    const cleanTake = { baseShare: 0.3, difference: 0.2 };
    const few = complete(4, 20, 1, { cleanTake }).figures.cleanTake!;
    const many = complete(4, 80, 1, { cleanTake }).figures.cleanTake!;
    expect(many.power).toBeGreaterThan(few.power + 0.2);
    planned.clear();
    expect(complete(4, 20, 1, { cleanTake }).figures.cleanTake).toEqual(few);
    expect(many.needed[0]!.growers).toBeLessThan(many.needed[1]!.growers);
  });
});

describe("factors", () => {
  const arms = { kind: "factorial", grains: ["rice", "rye", "oats"], waterRatios: [0.8, 1.1], minutes: [] };

  // In complete sets a level's mean over m recipes has 1/m of the variance: with 2 grains' means over 2 ratios half.
  it("average over the other factor", () => {
    const { growth } = complete(6, 30, 1, { arms });
    const byFactor = new Map(growth.factors.map(({ factor, power }) => [factor, power]));
    const half = complete(6, 30, 1, {
      deviations: { ...base.deviations, growerArm: Math.SQRT1_2 / 2, residual: Math.SQRT1_2 },
    });
    expect(byFactor.get("grain")).toBeCloseTo(half.growth.power, 9);
    expect(byFactor.get("waterRatio")!).toBeGreaterThan(byFactor.get("grain")!);
    expect(byFactor.has("minutes")).toBe(false);
  });

  it("count without the combinations left out", () => {
    const some = { ...arms, without: [{ grain: "rye", waterRatio: 1.1 }] };
    expect(plan({ arms: some }).arms).toBe(5);
  });
});

describe("several climate groups", () => {
  it("have figures each and all together", () => {
    const groups = [
      { code: "dry", growers: 12, setsPerGrower: 2 },
      { code: "mild", growers: 30, setsPerGrower: 1 },
    ];
    const { designs } = plan({ groups });
    const [dry, mild] = designs[0]!.groups;
    const together = designs[0]!.together!;
    expect(together.boxes).toBe(dry!.boxes + mild!.boxes);
    expect(together.growth!.variance).toBeLessThan(Math.min(dry!.growth!.variance, mild!.growth!.variance));
    expect(together.growth!.power).toBeGreaterThan(mild!.growth!.power);
  });

  it("one of which can't link its recipes says so while the others are planned", () => {
    const groups = [
      { code: "few", growers: 2, setsPerGrower: 1 },
      { code: "many", growers: 40, setsPerGrower: 2 },
    ];
    const { designs, advice } = plan({ groups });
    expect(designs[0]!.groups[0]).toMatchObject({ connected: false, efficiency: 0, growth: null, curve: [] });
    expect(advice).toContainEqual({ code: "NOT_CONNECTED", group: "few", sets: 2, setsNeeded: 6 });
    expect(advice).toContainEqual({ code: "FEW_GROWERS", group: "few", growers: 2 });
  });

  it("none of which can is refused", () => {
    const request = plannerRequestSchema.parse({
      ...base,
      groups: [{ code: "few", growers: 2, setsPerGrower: 2 }],
    });
    expect(planTrial(request)).toEqual({ ok: false, reason: "NO_GROUP_CONNECTED", sets: 4, setsNeeded: 6 });
  });
});

describe("the request", () => {
  it.each([
    [{ arms: { kind: "list", count: 1 } }, "planner.arms.count"],
    [{ arms: { kind: "factorial", grains: ["rice"], waterRatios: [1], minutes: [] } }, "planner.arms.count"],
    [{ boxesPerSet: { min: 3, max: 13 } }, "planner.boxes"],
    [{ boxesPerSet: { min: 5, max: 3 } }, "planner.boxes.order"],
    [{ groups: [{ code: "all", growers: 0, setsPerGrower: 1 }] }, "planner.growers"],
    [{ groups: [] }, "planner.groups.none"],
    [{ difference: 0 }, "planner.difference"],
    [{ deviations: { ...base.deviations, residual: 0 } }, "planner.deviation"],
    [{ deviations: { ...base.deviations, growerArm: -1 } }, "planner.deviation"],
    [{ margin: 5 }, "planner.margin"],
    [{ cleanTake: { baseShare: 0.7, difference: 0.4 } }, "planner.cleanTake.sum"],
    [{ ordinal: { shares: [0.5, 0.4], oddsRatio: 2 } }, "planner.ordinal.sum"],
    [{ meetAgainShare: 1.5 }, "planner.share"],
  ])("with %j is refused", (changes, key) => {
    const parsed = plannerRequestSchema.safeParse({ ...base, ...changes });
    expect(parsed.error?.issues.map(({ message }) => message)).toContain(key);
  });
});
