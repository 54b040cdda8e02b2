import { LEAST_MINIMUM, type PlanChoices, type TrialPlan, trialPlanSchema } from "@/shared/schemas/plan";
import type { ClimateGrouping } from "@/shared/vocabulary/climate";

/** The rubric of lib/engine/grading: growth by the boundaries of ASTM G21. */
export const RUBRIC_VERSION = "growth-1";

/** What a draft's plan says until its lead says otherwise. */
export const DEFAULT_PLAN_CHOICES: PlanChoices = {
  minimum: LEAST_MINIMUM,
  primaryComparison: { kind: "all-pairs" },
  margin: 0.5,
  looks: { count: 1, spending: "obrien-fleming-type" },
  endsAtBoxes: null,
  earlyCloseRule: "lead-may-close-marked",
  fetchRule: { kind: "by-growth" },
  meetAgainShare: 0.2,
  sampleSize: null,
};

/** What a draft says that its plan will hold. */
interface DraftPromises {
  readonly question: string;
  /** `YYYY-MM-DD` */
  readonly endsOn: string;
  readonly grouping: ClimateGrouping;
  readonly boxesMin: number;
  readonly boxesMax: number;
  readonly choices: PlanChoices;
}

/** A plan without its recipes. */
export type PlanPromises = Omit<TrialPlan, "arms" | "climateGrouping"> & {
  readonly climateGrouping: ClimateGrouping;
};

/** All that a draft promises but its recipes, as its lead reads it before opening; not checked yet. */
export function promisesOf(draft: DraftPromises): PlanPromises {
  const { question, endsOn, grouping, boxesMin, boxesMax, choices } = draft;
  return {
    ...choices,
    form: 2,
    question,
    estimand: "mean-growth-as-drawn",
    primaryOutcome: "growth",
    alpha: 0.05,
    endsOn,
    climateGrouping: grouping,
    boxesPerSet: { min: boxesMin, max: boxesMax },
    rubricVersion: RUBRIC_VERSION,
    lossHandling: "as-drawn",
    deviations: "as-drawn-then-as-cooked",
  };
}

/** What a trial promises, from its draft and what its lead chose for the analysis. */
export function planOf({ arms, ...draft }: DraftPromises & { readonly arms: TrialPlan["arms"] }): TrialPlan {
  return trialPlanSchema.parse({ ...promisesOf(draft), arms });
}

/** The code of an arm by its place: A, B, C, … */
export function armCode(position: number): string {
  return String.fromCharCode("A".charCodeAt(0) + position - 1);
}
