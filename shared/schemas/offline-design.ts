import { z } from "zod";
import { allDifferent, BOXES_PER_OUTING, codeSchema } from "./draw";
import { ARMS_PER_TRIAL, planChoicesSchema } from "./plan";

// Every message is a key of the message catalogue.

const boxCountSchema = z
  .int({ error: "design.boxes" })
  .min(BOXES_PER_OUTING.min, { error: "design.boxes" })
  .max(BOXES_PER_OUTING.max, { error: "design.boxes" });

/** What draws made off line rest on; the plan of a trial that never saw a server. */
export const offlineDesignSchema = z
  .strictObject({
    form: z.literal("grainlot-design/1", { error: "design.form" }),
    title: z.string().trim().min(1, { error: "design.title" }).max(120, { error: "design.title" }),
    /** In the order draws use. */
    arms: z
      .array(z.strictObject({ code: codeSchema, grain: codeSchema }))
      .min(ARMS_PER_TRIAL.min, { error: "plan.arms.few" })
      .max(ARMS_PER_TRIAL.max, { error: "plan.arms.many" })
      .refine((arms) => allDifferent(arms.map((arm) => arm.code)), { error: "arms.code.repeated" })
      .readonly(),
    boxesPerSet: z
      .strictObject({ min: boxCountSchema, max: boxCountSchema })
      .refine(({ min, max }) => min <= max, { error: "plan.boxesPerSet.order" }),
    climateGroups: z
      .array(codeSchema)
      .min(1, { error: "design.groups" })
      .refine(allDifferent, { error: "design.groups.repeated" })
      .readonly(),
    meetAgainShare: planChoicesSchema.shape.meetAgainShare,
    fetchRule: planChoicesSchema.shape.fetchRule,
  })
  .readonly();
export type OfflineDesign = z.infer<typeof offlineDesignSchema>;
