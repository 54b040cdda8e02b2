import { type TrialPlan, trialPlanSchema } from "@/shared/schemas/plan";
import type { ClimateGrouping } from "@/shared/vocabulary/climate";

/** The rubric of lib/engine/grading: growth by the boundaries of ASTM G21. */
export const RUBRIC_VERSION = "growth-1";

/**
 * The one rule in use: the lead may close before the last day; whoever reads the results is told that it was
 * early, and the lead has seen no result by recipe unless every cell had reached the stated minimum.
 */
export const EARLY_CLOSE_RULE = "lead-may-close-marked";

/** What a trial promises, from its draft and the minimum the lead states. */
export function planOf(draft: {
  readonly question: string;
  readonly minimum: TrialPlan["minimum"];
  /** `YYYY-MM-DD` */
  readonly endsOn: string;
  readonly grouping: ClimateGrouping;
  readonly boxesMin: number;
  readonly boxesMax: number;
  readonly arms: TrialPlan["arms"];
}): TrialPlan {
  const { question, minimum, endsOn, grouping, boxesMin, boxesMax, arms } = draft;
  return trialPlanSchema.parse({
    question,
    primaryOutcome: "growth",
    minimum,
    endsOn,
    climateGrouping: grouping,
    boxesPerSet: { min: boxesMin, max: boxesMax },
    arms,
    rubricVersion: RUBRIC_VERSION,
    earlyCloseRule: EARLY_CLOSE_RULE,
    lossHandling: "as-drawn",
  });
}

/** The code of an arm by its place: A, B, C, … */
export function armCode(position: number): string {
  return String.fromCharCode("A".charCodeAt(0) + position - 1);
}
