import { expect, test } from "vitest";
import { planHash } from "@/lib/engine/design/plan";
import { sha256Hex } from "@/lib/engine/random/hash";
import { storedPlanSchema, type TrialPlan, trialPlanSchema } from "@/shared/schemas/plan";

const FIRST_PLAN = {
  question: "Which grain takes best, cooked firm or soft?",
  primaryOutcome: "growth",
  minimum: { boxesPerCell: 12, growersPerCell: 6 },
  endsOn: "2026-11-30",
  climateGrouping: [
    { code: "mild", classes: ["Cfb", "Csb"] },
    { code: "hot", classes: ["Csa"] },
  ],
  boxesPerSet: { min: 3, max: 6 },
  arms: [
    { code: "rye-1", grain: "rye", variantHash: "1".repeat(64) },
    { code: "rye-2", grain: "rye", variantHash: "2".repeat(64) },
  ],
  rubricVersion: "1",
  earlyCloseRule: "none",
  lossHandling: "as-drawn",
} as const;

const plan: TrialPlan = trialPlanSchema.parse({
  ...FIRST_PLAN,
  form: 2,
  estimand: "mean-growth-as-drawn",
  alpha: 0.05,
  primaryComparison: { kind: "against-reference", arm: "rye-1" },
  margin: 0.5,
  looks: { count: 2, spending: "obrien-fleming-type" },
  endsAtBoxes: 400,
  earlyCloseRule: "never",
  fetchRule: { kind: "staged", afterDays: [4, 6] },
  meetAgainShare: 0.2,
  deviations: "as-drawn-then-as-cooked",
  sampleSize: null,
});

test("the plan's hash depends on its content alone, not on how it is written down", () => {
  const reversed = Object.fromEntries(Object.entries(structuredClone(plan)).reverse());
  expect(planHash(trialPlanSchema.parse(reversed))).toBe(planHash(plan));
});

test("a plan of the first form is still read, and keeps the hash it was published with", () => {
  expect(planHash(storedPlanSchema.parse(FIRST_PLAN))).toBe(
    sha256Hex(
      '{"arms":[{"code":"rye-1","grain":"rye","variantHash":"' +
        "1".repeat(64) +
        '"},{"code":"rye-2","grain":"rye","variantHash":"' +
        "2".repeat(64) +
        '"}],"boxesPerSet":{"max":6,"min":3},"climateGrouping":[{"classes":["Cfb","Csb"],"code":"mild"},' +
        '{"classes":["Csa"],"code":"hot"}],"earlyCloseRule":"none","endsOn":"2026-11-30","lossHandling":"as-drawn",' +
        '"minimum":{"boxesPerCell":12,"growersPerCell":6},"primaryOutcome":"growth",' +
        '"question":"Which grain takes best, cooked firm or soft?","rubricVersion":"1"}',
    ),
  );
});

test("any change to the plan changes its hash", () => {
  const changes: Partial<TrialPlan>[] = [
    { question: "Which grain takes best?" },
    { minimum: { ...plan.minimum, growersPerCell: 7 } },
    { endsOn: "2026-12-01" },
    { climateGrouping: plan.climateGrouping.toReversed() },
    { boxesPerSet: { min: 3, max: 7 } },
    { arms: plan.arms.toReversed() },
    { earlyCloseRule: "every-cell-at-minimum" },
    { margin: 0.4 },
    { primaryComparison: { kind: "against-best" } },
    { looks: { ...plan.looks, count: 3 } },
    { endsAtBoxes: null },
    { fetchRule: { kind: "by-growth" } },
    { meetAgainShare: 0.25 },
  ];
  const hashes = [{}, ...changes].map((change) => planHash({ ...plan, ...change }));
  expect(new Set(hashes).size).toBe(changes.length + 1);
});

test.each([
  ["a minimum below what may be published", { minimum: { boxesPerCell: 4, growersPerCell: 6 } }],
  ["two growers as a minimum", { minimum: { boxesPerCell: 12, growersPerCell: 2 } }],
  ["one arm", { arms: plan.arms.slice(1) }],
  ["two arms of one code", { arms: [plan.arms[0], { ...plan.arms[1], code: "rye-1" }] }],
  ["one recipe twice", { arms: [plan.arms[0], { ...plan.arms[0], code: "rye-3" }] }],
  ["a smallest set above the largest", { boxesPerSet: { min: 6, max: 3 } }],
  ["thirteen boxes", { boxesPerSet: { min: 3, max: 13 } }],
  ["a class in two groups", { climateGrouping: [...plan.climateGrouping, { code: "x", classes: ["Csa"] }] }],
  ["a day that does not exist", { endsOn: "2026-02-30" }],
  ["no question", { question: "  " }],
  ["a margin of nothing", { margin: 0 }],
  ["a margin wider than the scale", { margin: 4.1 }],
  ["a reference it doesn't have", { primaryComparison: { kind: "against-reference", arm: "oats" } }],
  ["one fetch day as stages", { fetchRule: { kind: "staged", afterDays: [4] } }],
  ["a fetch day twice", { fetchRule: { kind: "staged", afterDays: [4, 4] } }],
  ["more than all growers", { meetAgainShare: 1.1 }],
  ["something more than the plan", { secret: "00" }],
])("the plan refuses %s", (_name, change) => {
  expect(trialPlanSchema.safeParse({ ...plan, ...change }).success).toBe(false);
});
