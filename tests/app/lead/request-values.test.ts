import { describe, expect, it } from "vitest";
import {
  defaultValues,
  queryOf,
  queryText,
  requestOf,
  typedValues,
} from "@/app/lead/trials/[id]/design/_components/request-values";
import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import type { LeadTrialRow } from "@/lib/services/lead/read";
import { ASSUMED_DEVIATIONS } from "@/shared/schemas/planner";

/** An invented draft without recipes. */
const trial = {
  id: "01a21300-0000-7000-8000-000000000001",
  grouping: [
    { code: "mild-wet", classes: ["Cfa", "Cfb"] },
    { code: "dry", classes: ["BSh"] },
  ],
  arms: [],
  boxesMin: 3,
  boxesMax: 4,
  regions: [{ capacity: 30 }, { capacity: 21 }],
} as unknown as LeadTrialRow;

const defaults = defaultValues(trial, DEFAULT_PLAN_CHOICES);
const ask = (query: string) => requestOf(typedValues(queryOf(query), defaults), trial);

function faultsOf(query: string) {
  const typed = ask(query);
  if (typed.ok) throw new Error("nothing at fault");
  return typed.faults;
}

describe("the design page's fields", () => {
  it("start as a request that can be worked out: seats shared out, deviations assumed", () => {
    const typed = ask("");
    expect(typed).toMatchObject({
      ok: true,
      request: {
        arms: { kind: "list", count: 6 },
        boxesPerSet: { min: 3, max: 4 },
        groups: [
          { code: "mild-wet", growers: 25, setsPerGrower: 2 },
          { code: "dry", growers: 25, setsPerGrower: 2 },
        ],
        deviations: ASSUMED_DEVIATIONS,
        deviationsFrom: "assumed",
        cleanTake: null,
        margin: 0.5,
        level: 0.95,
        meetAgainShare: 0.2,
      },
    });
  });

  it("take grains by water and time, with a decimal comma or a point, blanks or semicolons between", () => {
    const typed = ask("as=grid&grain=millet&grain=spelt&ratios=0,9+1.4;2&minutes=20+35");
    expect(typed).toMatchObject({
      ok: true,
      request: {
        arms: {
          kind: "factorial",
          grains: ["millet", "spelt"],
          waterRatios: [0.9, 1.4, 2],
          minutes: [20, 35],
        },
      },
    });
  });

  it("take per cents as shares", () => {
    expect(ask("cleanBase=40&cleanMore=25&again=30")).toMatchObject({
      ok: true,
      request: { cleanTake: { baseShare: 0.4, difference: 0.25 }, meetAgainShare: 0.3 },
    });
  });

  it.each([
    ["count=1", { count: "planner.arms.count" }],
    ["count=25", { count: "planner.arms.count" }],
    ["boxesMin=1", { boxesMin: "planner.boxes" }],
    ["boxesMax=13", { boxesMax: "planner.boxes" }],
    ["boxesMin=6&boxesMax=3", { boxesMin: "planner.boxes.order" }],
    ["growers.dry=0", { "growers.dry": "planner.growers" }],
    ["sets.mild-wet=", { "sets.mild-wet": "planner.sets" }],
    ["difference=0", { difference: "planner.difference" }],
    ["sd.residual=0", { "sd.residual": "planner.deviation" }],
    ["sd.growerArm=-1", { "sd.growerArm": "planner.deviation" }],
    ["margin=4.5", { margin: "planner.margin" }],
    ["again=101", { again: "planner.share" }],
    ["cleanBase=60&cleanMore=50", { cleanBase: "planner.cleanTake.sum" }],
    ["cleanBase=60", { cleanMore: "planner.cleanTake" }],
    ["as=grid&grain=millet&ratios=0.9,1.2", { ratios: "planner.waterRatio" }],
    ["as=grid&ratios=1", { grains: "planner.factor.empty" }],
    ["as=grid&grain=millet&ratios=1", { grains: "planner.arms.count" }],
  ])("name the field at fault: %s", (query, faults) => {
    expect(faultsOf(query)).toMatchObject(faults);
  });

  it("survive being sent again as a query", () => {
    const query = queryOf("as=grid&grain=millet&grain=spelt&ratios=1+2&show=1");
    expect(queryOf(queryText(query))).toEqual(query);
  });
});
