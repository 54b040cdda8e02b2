import { z } from "zod";
import { BOX_KINDS, MAX_GRAIN_DEPTH_CM, MIN_GRAIN_DEPTH_CM } from "@/shared/vocabulary/box";
import { climateGroupingSchema } from "./climate-grouping";
import { allDifferent, BOXES_PER_OUTING, codeSchema, hash256Schema } from "./draw";

// Every message is a key of the message catalogue.

/** Arms in one trial. */
export const ARMS_PER_TRIAL = { min: 2, max: 24 } as const;

/** No figure may rest on less (a cell is one arm in one climate group); a plan may ask for more. */
export const LEAST_MINIMUM = { boxesPerCell: 5, growersPerCell: 3 } as const;

const boxCountSchema = z.int().min(BOXES_PER_OUTING.min).max(BOXES_PER_OUTING.max);

const planArmSchema = z.strictObject({
  code: codeSchema,
  /** The grain the arm needs; with it anyone can check which arms a draw could choose from. */
  grain: codeSchema,
  /** Content hash of the protocol variant. */
  variantHash: hash256Schema,
});

/** Which comparison of mean growth the trial was set up for; every other one is secondary. */
const primaryComparisonSchema = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("all-pairs") }),
  z.strictObject({ kind: z.literal("against-best") }),
  z.strictObject({ kind: z.literal("against-reference"), arm: codeSchema }),
]);

/** Days from set-out to a planned fetch. */
const fetchDaySchema = z.int({ error: "plan.fetch.day" }).min(1, { error: "plan.fetch.day" }).max(60, {
  error: "plan.fetch.day",
});

/** When a set of boxes is fetched: as the growth looks, all on one day, or on a day that is drawn for each set. */
const fetchRuleSchema = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("by-growth") }),
  z.strictObject({ kind: z.literal("same-day"), afterDays: fetchDaySchema }),
  z.strictObject({
    kind: z.literal("staged"),
    afterDays: z
      .array(fetchDaySchema)
      .min(2, { error: "plan.fetch.stages" })
      .max(6, { error: "plan.fetch.stages" })
      .refine((days) => new Set(days).size === days.length, { error: "plan.fetch.repeated" })
      .readonly(),
  }),
]);

/** Rules by which a trial may close before its end. */
export const EARLY_CLOSE_RULES = [
  /** Not before the end. */
  "never",
  /** Once every cell has reached the stated minimum. */
  "every-cell-at-minimum",
  /** At any time; whoever reads the results is told that it was early. */
  "lead-may-close-marked",
] as const;

const grainDepthSchema = z
  .number({ error: "plan.boxLimits.depth" })
  .min(MIN_GRAIN_DEPTH_CM, { error: "plan.boxLimits.depth" })
  .max(MAX_GRAIN_DEPTH_CM, { error: "plan.boxLimits.depth" });

const deviation = z.number().min(0, { error: "plan.sd" }).max(10, { error: "plan.sd" });
const share = z
  .number({ error: "plan.share" })
  .min(0, { error: "plan.share" })
  .max(1, { error: "plan.share" });

/** What the number of growers rests on: the planner's assumptions and what it found with them. */
const sampleSizeSchema = z.strictObject({
  /** Difference of mean growth between two recipes that should be found. */
  difference: z.number().gt(0).max(4),
  /** How many recipes it was worked out for, whatever the trial has in the end. */
  recipes: z.int().min(ARMS_PER_TRIAL.min).max(ARMS_PER_TRIAL.max),
  growersPerGroup: z.int().min(1).max(10_000),
  setsPerGrower: z.int().min(1).max(100),
  boxesPerSet: boxCountSchema,
  /** Standard deviations of growth: between growers, grower × recipe, sets of one grower, boxes of one set. */
  sd: z.strictObject({
    grower: deviation,
    growerArm: deviation,
    outing: deviation,
    residual: deviation.gt(0),
  }),
  sdFrom: z.enum(["assumed", "earlier-trial"]),
  /** Two-sided level of the test the power is for. */
  alpha: z.number().gt(0).lt(1),
  /** Chance to find the difference in one climate group, and the method's name; its Monte Carlo error where simulated. */
  power: share,
  powerError: z.number().min(0).nullable(),
  method: codeSchema,
});

/** Limits a trial sets to the boxes of a set, beside those that hold for all; null where it sets none. */
export const boxLimitsSchema = z
  .strictObject({
    kinds: z.array(z.enum(BOX_KINDS)).min(1).nullable(),
    grainDepthCm: z
      .strictObject({ min: grainDepthSchema, max: grainDepthSchema })
      .refine(({ min, max }) => min <= max, { path: ["min"], error: "plan.boxLimits.depthOrder" }),
    minSpacingCm: z
      .int({ error: "plan.boxLimits.spacing" })
      .min(1, { error: "plan.boxLimits.spacing" })
      .max(10_000, { error: "plan.boxLimits.spacing" })
      .nullable(),
  })
  .readonly();
export type BoxLimits = z.infer<typeof boxLimitsSchema>;

/** What a lead settles about the analysis while the trial is a draft. */
export const planChoicesSchema = z.strictObject({
  /** What a cell, one arm in one climate group, must hold before results come out from behind the curtain. */
  minimum: z.strictObject({
    boxesPerCell: z
      .int({ error: "plan.minimum.boxes" })
      .min(LEAST_MINIMUM.boxesPerCell, { error: "plan.minimum.boxes" }),
    growersPerCell: z
      .int({ error: "plan.minimum.growers" })
      .min(LEAST_MINIMUM.growersPerCell, { error: "plan.minimum.growers" }),
  }),
  primaryComparison: primaryComparisonSchema,
  /** Two recipes that differ by less than this in mean growth (0–4) count as equally good. */
  margin: z.number({ error: "plan.margin" }).gt(0, { error: "plan.margin" }).max(4, { error: "plan.margin" }),
  /** Looks at the results by recipe, the final one included; the level is spent over them. */
  looks: z.strictObject({
    count: z.int({ error: "plan.looks" }).min(1, { error: "plan.looks" }).max(5, { error: "plan.looks" }),
    spending: z.literal("obrien-fleming-type"),
  }),
  /** The trial also ends when so many boxes have been recorded; null: at its last day only. */
  endsAtBoxes: z.int({ error: "plan.endsAtBoxes" }).min(1, { error: "plan.endsAtBoxes" }).nullable(),
  earlyCloseRule: z.enum(EARLY_CLOSE_RULES),
  fetchRule: fetchRuleSchema,
  /** Absent where the trial sets no limits of its own. */
  boxLimits: boxLimitsSchema.optional(),
  /** Share of a grower's later sets that hold a recipe the grower has had before. */
  meetAgainShare: share,
  sampleSize: sampleSizeSchema.nullable(),
});
export type PlanChoices = z.infer<typeof planChoicesSchema>;

const questionSchema = z
  .string()
  .trim()
  .min(1, { error: "plan.question.empty" })
  .max(300, { error: "plan.question.long" });

const armsSchema = z
  .array(planArmSchema)
  .min(ARMS_PER_TRIAL.min, { error: "plan.arms.few" })
  .max(ARMS_PER_TRIAL.max, { error: "plan.arms.many" })
  .refine((arms) => allDifferent(arms.map((arm) => arm.code)), { error: "arms.code.repeated" })
  .refine((arms) => allDifferent(arms.map((arm) => arm.variantHash)), { error: "plan.arms.sameRecipe" })
  .readonly();

const boxesPerSetSchema = z
  .strictObject({ min: boxCountSchema, max: boxCountSchema })
  .refine(({ min, max }) => min <= max, { error: "plan.boxesPerSet.order" });

/** What every form of plan holds. */
const planBase = {
  question: questionSchema,
  primaryOutcome: z.literal("growth"),
  /** The last day of the trial, a calendar date `YYYY-MM-DD`. */
  endsOn: z.iso.date({ error: "plan.endsOn.form" }),
  climateGrouping: climateGroupingSchema,
  boxesPerSet: boxesPerSetSchema,
  /** In the order draws use. */
  arms: armsSchema,
  rubricVersion: codeSchema,
  lossHandling: z.literal("as-drawn"),
};

/** What a trial promises when it opens. It never changes after; its hash is published with the seal. */
export const trialPlanSchema = z
  .strictObject({
    ...planBase,
    ...planChoicesSchema.shape,
    form: z.literal(2),
    /** Difference between two recipes in the mean growth of boxes that were drawn for them, over growers of a climate group. */
    estimand: z.literal("mean-growth-as-drawn"),
    /** Two-sided level of the primary comparison, and of its intervals 1 − alpha. */
    alpha: z.literal(0.05),
    /** What was cooked otherwise stays with the recipe drawn; as cooked is analysed beside it. */
    deviations: z.literal("as-drawn-then-as-cooked"),
  })
  .refine(
    ({ primaryComparison: primary, arms }) =>
      primary.kind !== "against-reference" || arms.some(({ code }) => code === primary.arm),
    { path: ["primaryComparison"], error: "plan.reference" },
  )
  .readonly();
export type TrialPlan = z.infer<typeof trialPlanSchema>;

/** Plans of trials opened before comparisons, margins and looks were part of one. */
const firstPlanSchema = z
  .strictObject({
    ...planBase,
    minimum: planChoicesSchema.shape.minimum,
    earlyCloseRule: codeSchema,
  })
  .readonly();

/** Any plan a stored trial may have. */
export const storedPlanSchema = z.union([trialPlanSchema, firstPlanSchema]);
export type StoredPlan = z.infer<typeof storedPlanSchema>;
