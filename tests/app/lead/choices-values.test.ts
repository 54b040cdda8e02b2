import { describe, expect, it } from "vitest";
import { choiceValues, typedChoices } from "@/app/lead/trials/[id]/plan/_components/choices-values";
import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import { type PlanChoices, planChoicesSchema } from "@/shared/schemas/plan";

const unusual: PlanChoices = {
  ...DEFAULT_PLAN_CHOICES,
  minimum: { boxesPerCell: 12, growersPerCell: 7 },
  primaryComparison: { kind: "against-reference", arm: "C" },
  margin: 0.35,
  looks: { count: 4, spending: "obrien-fleming-type" },
  endsAtBoxes: 640,
  earlyCloseRule: "every-cell-at-minimum",
  fetchRule: { kind: "staged", afterDays: [4, 6, 9] },
  meetAgainShare: 0.125,
};

describe("the plan's choices as a form", () => {
  it.each([
    ["the defaults", DEFAULT_PLAN_CHOICES],
    ["others", unusual],
    [
      "limits to the boxes",
      {
        ...unusual,
        boxLimits: { kinds: ["bamboo", "softwood"], grainDepthCm: { min: 3.5, max: 6 }, minSpacingCm: 50 },
      } as PlanChoices,
    ],
    ["one fetch day", { ...unusual, fetchRule: { kind: "same-day", afterDays: 5 } } as PlanChoices],
  ])("come back as they went out: %s", (_name, choices) => {
    expect(planChoicesSchema.parse(typedChoices(choiceValues(choices), choices.sampleSize))).toEqual(choices);
  });

  it("limit boxes where any field of theirs is filled, to all kinds and depths where the others are not", () => {
    const values = { ...choiceValues(DEFAULT_PLAN_CHOICES), "boxLimits.minSpacingCm": "40" };
    expect(planChoicesSchema.parse(typedChoices(values, null)).boxLimits).toEqual({
      kinds: null,
      grainDepthCm: { min: 0.5, max: 7.5 },
      minSpacingCm: 40,
    });
  });

  it.each([
    [{ margin: "" }, "margin"],
    [{ margin: "0" }, "margin"],
    [{ "minimum.boxesPerCell": "4" }, "minimum.boxesPerCell"],
    [{ "minimum.growersPerCell": "2.5" }, "minimum.growersPerCell"],
    [{ endsAtBoxes: "many" }, "endsAtBoxes"],
    [{ "fetchRule.kind": "same-day", "fetchRule.afterDays": "4 5" }, "fetchRule.afterDays"],
    [{ "fetchRule.kind": "staged", "fetchRule.afterDays": "4" }, "fetchRule.afterDays"],
    [{ "fetchRule.kind": "staged", "fetchRule.afterDays": "4 x" }, "fetchRule.afterDays"],
    [{ meetAgainShare: "120" }, "meetAgainShare"],
    [{ "boxLimits.grainDepthCm.max": "7,6" }, "boxLimits.grainDepthCm.max"],
    [{ "boxLimits.grainDepthCm.min": "5", "boxLimits.grainDepthCm.max": "4" }, "boxLimits.grainDepthCm.min"],
    [{ "boxLimits.minSpacingCm": "half a metre" }, "boxLimits.minSpacingCm"],
    [{ "boxLimits.kinds": "marble" }, "boxLimits.kinds"],
  ])("are refused at the field: %o", (typed, field) => {
    const values = { ...choiceValues(DEFAULT_PLAN_CHOICES), ...typed };
    const parsed = planChoicesSchema.safeParse(typedChoices(values, null));
    expect(parsed.success).toBe(false);
    expect(parsed.error!.issues.map(({ path }) => path.join("."))).toEqual([expect.stringContaining(field)]);
  });
});
