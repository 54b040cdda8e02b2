import { describe, expect, it } from "vitest";
import type { PooledTrial } from "@/lib/data/pool-plan";
import { DEFAULT_PLAN_CHOICES, planOf } from "@/lib/services/lead/plan";
import { levelAt, lookDue, poolOptions } from "@/lib/services/pool-plan";
import type { PlanChoices } from "@/shared/schemas/plan";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { BARLEY_RECIPE } from "@/tests/engine/grain/recipes";

const DAY = 24 * 3_600_000;
const openedAt = new Date("2027-01-01T00:00:00Z");

const content = (waterToGrain: number): VariantContent => ({
  ...BARLEY_RECIPE,
  grain: "spelt",
  waterToGrain,
});

function trial(choices: Partial<PlanChoices>): PooledTrial {
  const plan = planOf({
    question: "How wet?",
    endsOn: "2027-04-11",
    boxesMin: 2,
    boxesMax: 6,
    grouping: [{ code: "all", classes: ["Cfb"] }],
    arms: ["A", "B"].map((code, i) => ({ code, grain: "spelt", variantHash: String(i).repeat(64) })),
    choices: { ...DEFAULT_PLAN_CHOICES, ...choices },
  });
  const ends = { endsOn: plan.endsOn, endsAtBoxes: choices.endsAtBoxes ?? null };
  const arms = [
    { code: "A", content: content(1) },
    { code: "B", content: content(1.5) },
  ];
  return { status: "open", plan, openedAt, closedAt: null, ends, arms };
}

const looks = (count: number): PlanChoices["looks"] => ({ count, spending: "obrien-fleming-type" });
const onDay = (days: number): Date => new Date(openedAt.getTime() + days * DAY);

describe("the look that is due", () => {
  it.each([
    ["before the first", 24, [], null],
    ["at the first", 25, [], { look: 1, looks: 4, fraction: 0.25, by: "boxes" }],
    ["again before the second", 45, [0.25], null],
    [
      "at the third, the second having been missed",
      80,
      [0.25],
      { look: 3, looks: 4, fraction: 0.8, by: "boxes" },
    ],
    ["after the last interim one", 95, [0.25, 0.5, 0.75], null],
    ["with all boxes, whose result is the final one", 100, [0.25], null],
  ])("of four, counted in 100 boxes, is right %s", (_, measured, taken, due) => {
    const own = trial({ looks: looks(4), endsAtBoxes: 100 });
    expect(lookDue(own, { measured, taken, now: onDay(1) })).toEqual(due);
  });

  it("is counted in days where the plan names no number of boxes", () => {
    const own = trial({ looks: looks(2) });
    expect(lookDue(own, { measured: 1000, taken: [], now: onDay(49) })).toBeNull();
    expect(lookDue(own, { measured: 0, taken: [], now: onDay(60) })).toEqual({
      ...{ look: 1, looks: 2, fraction: 0.6, by: "days" },
    });
  });

  it("never comes where the plan has one look, the final one", () => {
    expect(lookDue(trial({ endsAtBoxes: 10 }), { measured: 9, taken: [], now: onDay(99) })).toBeNull();
  });
});

describe("the level of a look", () => {
  it("is the plan's where nobody has looked before", () => {
    expect(levelAt(1, [])).toBe(0.95);
  });

  it("is that of five equally spaced looks of the O'Brien–Fleming type", () => {
    // Two-sided 5 %: boundaries 4.8769, 3.3569, 2.6803, 2.2898, 2.0310, as R's ldbounds prints them (from memory).
    const tails = [1.0777e-6, 7.8816e-4, 7.3556e-3, 2.2033e-2, 4.2255e-2];
    tails.forEach((tail, i) => {
      const earlier = [0.2, 0.4, 0.6, 0.8].slice(0, i);
      expect((1 - levelAt((i + 1) / 5, earlier)) / tail).toBeCloseTo(1, 2);
    });
  });
});

describe("how a plan has its boxes analysed", () => {
  it("takes margin, comparison and recipes from it, moisture from the recipe", () => {
    const own = trial({ margin: 0.4, primaryComparison: { kind: "against-reference", arm: "B" } });
    const options = poolOptions(own, 0.95, true);
    expect(options).toMatchObject({
      margin: 0.4,
      reference: "B",
      primary: { kind: "against-reference", arm: "B" },
    });
    const [firm, soft] = [options.factors!.get("A")!, options.factors!.get("B")!];
    expect([firm.grain, firm.ratio, soft.ratio]).toEqual(["spelt", "1 mass", "1.5 mass"]);
    // (w0 + r)/(1 + r) with spelt's 11.02 % raw moisture (USDA SR-28), by hand: 55.5 and 64.4 %.
    expect(firm.moisturePercent).toBeCloseTo(55.5, 1);
    expect(soft.moisturePercent).toBeCloseTo(64.4, 1);
  });
});
