import { describe, expect, test } from "vitest";
import { designOf } from "@/lib/engine/design/draw";
import { DRAW_ALGORITHM, drawAllocation, drawRule } from "@/lib/engine/design/rules";
import { seededSource } from "@/lib/engine/random/source";
import { storedPlanSchema } from "@/shared/schemas/plan";
import bothRules from "../../fixtures/reference/draw/ledger-both-rules.json";
import staged from "../../fixtures/reference/draw/ledger-staged.json";
import { NO_HISTORY, someInputs } from "./draw-inputs";

const DESIGN = { meetAgainShare: 0, fetchAfterDays: null };

test("new draws are made by a rule that can be replayed, and an unknown rule is not guessed at", () => {
  expect(drawRule(DRAW_ALGORITHM)).toBe(drawAllocation);
  expect(drawRule("grainlot-draw/0")).toBeUndefined();
  expect(drawRule("constructor")).toBeUndefined();
});

test("a plan says how often households meet an arm again and which fetch days are drawn; the first form says neither", () => {
  expect(designOf(storedPlanSchema.parse(bothRules.plan))).toEqual(DESIGN);
  const plan = storedPlanSchema.parse(staged.plan);
  expect(designOf(plan)).toEqual({ meetAgainShare: 0.4, fetchAfterDays: [4, 6, 9] });
  const sameDay = storedPlanSchema.parse({ ...staged.plan, fetchRule: { kind: "same-day", afterDays: 5 } });
  expect(designOf(sameDay)).toEqual({ meetAgainShare: 0.4, fetchAfterDays: null });
});

describe.each(["grainlot-draw/1", "grainlot-draw/2"])("%s refuses", (algorithm) => {
  const inputs = someInputs({ drawnBefore: [0, 0, 0, 0] });
  const drawn = (changed: Partial<typeof inputs>) =>
    drawRule(algorithm)!({ ...inputs, ...changed }, seededSource("s"), NO_HISTORY, DESIGN);

  test.each([1, 0, 13, 2.5, Number.NaN])("a set of %d boxes", (boxes) => {
    expect(drawn({ boxes })).toEqual({ ok: false, reason: "BAD_BOX_COUNT", remedy: "CHOOSE_2_TO_12_BOXES" });
  });

  test("no grain of the trial at hand", () => {
    for (const grainsAtHand of [[], ["wild-rice"]]) {
      const refusal = { ok: false, reason: "NO_ARM_POSSIBLE", remedy: "GET_GRAIN_OF_THIS_TRIAL" };
      expect(drawn({ grainsAtHand })).toEqual(refusal);
    }
  });

  test("only one arm that can be cooked: the set would compare nothing", () => {
    const refusal = { ok: false, reason: "ONE_ARM_ONLY", remedy: "GET_GRAIN_OF_ANOTHER_ARM" };
    expect(drawn({ arms: inputs.arms.slice(0, 3), grainsAtHand: ["rye"] })).toEqual(refusal);
  });
});
