import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import type { PlanChoices } from "@/shared/schemas/plan";

/** What the leads of the invented trials chose for their plans. */
export const CLOSED_CHOICES: PlanChoices = { ...DEFAULT_PLAN_CHOICES, earlyCloseRule: "never" };

export const OPEN_CHOICES: PlanChoices = {
  ...DEFAULT_PLAN_CHOICES,
  earlyCloseRule: "every-cell-at-minimum",
};
