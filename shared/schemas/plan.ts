import { z } from "zod";
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

/** What a trial promises when it opens. It never changes after; its hash is published with the seal. */
export const trialPlanSchema = z
  .strictObject({
    question: z
      .string()
      .trim()
      .min(1, { error: "plan.question.empty" })
      .max(300, { error: "plan.question.long" }),
    primaryOutcome: z.literal("growth"),
    /** What a cell, one arm in one climate group, must hold before results come out from behind the curtain. */
    minimum: z.strictObject({
      boxesPerCell: z.int().min(LEAST_MINIMUM.boxesPerCell, { error: "plan.minimum.boxes" }),
      growersPerCell: z.int().min(LEAST_MINIMUM.growersPerCell, { error: "plan.minimum.growers" }),
    }),
    /** The last day of the trial, a calendar date `YYYY-MM-DD`. */
    endsOn: z.iso.date({ error: "plan.endsOn.form" }),
    climateGrouping: climateGroupingSchema,
    boxesPerSet: z
      .strictObject({ min: boxCountSchema, max: boxCountSchema })
      .refine(({ min, max }) => min <= max, { error: "plan.boxesPerSet.order" }),
    /** In the order draws use. */
    arms: z
      .array(planArmSchema)
      .min(ARMS_PER_TRIAL.min, { error: "plan.arms.few" })
      .max(ARMS_PER_TRIAL.max, { error: "plan.arms.many" })
      .refine((arms) => allDifferent(arms.map((arm) => arm.code)), { error: "arms.code.repeated" })
      .refine((arms) => allDifferent(arms.map((arm) => arm.variantHash)), { error: "plan.arms.sameRecipe" })
      .readonly(),
    rubricVersion: codeSchema,
    /** Names the printed rule by which the trial may close early. */
    earlyCloseRule: codeSchema,
    /** Lost boxes stay in the analysis of what was drawn. */
    lossHandling: z.literal("as-drawn"),
  })
  .readonly();
export type TrialPlan = z.infer<typeof trialPlanSchema>;
