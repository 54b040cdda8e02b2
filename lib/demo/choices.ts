import { differencePower } from "@/lib/engine/design/planner/power";
import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import type { PlanChoices } from "@/shared/schemas/plan";
import { STORY_FETCH_DAYS } from "./stories";

type Basis = NonNullable<PlanChoices["sampleSize"]>;

const ALPHA = 0.05;
/** Assumed by the invented leads, on the growth scale 0–4. */
const SD = { grower: 0.5, growerArm: 0.3, outing: 0.5, residual: 1 } as const;

/** What a number of growers rests on who each have every recipe once in each of their sets. */
function completeSets(
  design: Pick<Basis, "difference" | "growersPerGroup" | "setsPerGrower" | "boxesPerSet">,
): Basis {
  const { difference, growersPerGroup: g, setsPerGrower } = design;
  const variance = 2 * (SD.growerArm ** 2 / g + SD.residual ** 2 / (g * setsPerGrower));
  const power = differencePower(difference, variance, g - 1, ALPHA);
  return {
    ...design,
    recipes: design.boxesPerSet,
    sd: SD,
    sdFrom: "assumed",
    alpha: ALPHA,
    power: Math.round(power * 10_000) / 10_000,
    powerError: null,
    method: "noncentral-t-growers-minus-1",
  };
}

/** What the lead of the invented trial that has closed had chosen for its plan. */
export const CLOSED_CHOICES: PlanChoices = {
  ...DEFAULT_PLAN_CHOICES,
  earlyCloseRule: "never",
  sampleSize: completeSets({ difference: 0.9, growersPerGroup: 15, setsPerGrower: 2, boxesPerSet: 6 }),
};

/** … and of the one still open. */
export const OPEN_CHOICES: PlanChoices = {
  ...DEFAULT_PLAN_CHOICES,
  earlyCloseRule: "every-cell-at-minimum",
  sampleSize: completeSets({ difference: 0.8, growersPerGroup: 18, setsPerGrower: 2, boxesPerSet: 4 }),
};

/** … and of the small season that is released, and of the one after it. */
export const FIRM_CHOICES: PlanChoices = {
  ...DEFAULT_PLAN_CHOICES,
  minimum: { boxesPerCell: 8, growersPerCell: 5 },
  looks: { ...DEFAULT_PLAN_CHOICES.looks, count: 2 },
  earlyCloseRule: "every-cell-at-minimum",
  fetchRule: { kind: "same-day", afterDays: STORY_FETCH_DAYS },
  sampleSize: completeSets({ difference: 1, growersPerGroup: 15, setsPerGrower: 2, boxesPerSet: 3 }),
};
