import { z } from "zod";
import { BOXES_PER_OUTING, codeSchema } from "./draw";
import { ARMS_PER_TRIAL } from "./plan";

// Every message is a key of the message catalogue.

/** Greatest difference there can be between two means on the growth scale 0–4. */
const GROWTH_SCALE_WIDTH = 4;

/** Limits of what the planner takes. */
export const PLANNER_LIMITS = {
  growersPerGroup: { min: 1, max: 10_000 },
  setsPerGrower: { min: 1, max: 100 },
  groups: { min: 1, max: 30 },
  levelsPerFactor: 24,
} as const;

/**
 * Standard deviations of growth (0–4) for a first trial, when no earlier one tells better: assumed, no source.
 * Half a growth class between growers, between a grower's liking for one recipe and another, and between sets of
 * boxes; one class between boxes alike in all of that.
 */
export const ASSUMED_DEVIATIONS = { grower: 0.5, growerArm: 0.5, outing: 0.5, residual: 1 } as const;

const countIn = ({ min, max }: { min: number; max: number }, error: string) =>
  z.int({ error }).min(min, { error }).max(max, { error });

/** No grower is the same as another and no box as the next: a deviation of zero is a wish. */
const deviationSchema = z
  .number({ error: "planner.deviation" })
  .gt(0, { error: "planner.deviation" })
  .max(10, { error: "planner.deviation" });

const levelsOf = (item: z.ZodType<number>, error: string) =>
  z
    .array(item)
    .max(PLANNER_LIMITS.levelsPerFactor, { error })
    .refine((levels) => new Set(levels).size === levels.length, { error: "planner.factor.repeated" })
    .readonly();

const cellSchema = z.strictObject({
  grain: codeSchema,
  waterRatio: z.number(),
  /** Absent when the factorial has no cook minutes. */
  minutes: z.number().optional(),
});

const factorialSchema = z.strictObject({
  kind: z.literal("factorial"),
  grains: z
    .array(codeSchema)
    .min(1, { error: "planner.factor.empty" })
    .max(PLANNER_LIMITS.levelsPerFactor, { error: "planner.factor.many" })
    .refine((grains) => new Set(grains).size === grains.length, { error: "planner.factor.repeated" })
    .readonly(),
  waterRatios: levelsOf(
    z.number({ error: "planner.waterRatio" }).gt(0, { error: "planner.waterRatio" }).max(10, {
      error: "planner.waterRatio",
    }),
    "planner.factor.many",
  ).refine((levels) => levels.length > 0, { error: "planner.factor.empty" }),
  /** Empty: cook minutes are not a factor. */
  minutes: levelsOf(
    z.number({ error: "planner.minutes" }).min(0, { error: "planner.minutes" }).max(600, {
      error: "planner.minutes",
    }),
    "planner.factor.many",
  ),
  /** Combinations that are not wanted. */
  without: z.array(cellSchema).readonly().optional(),
});

const listSchema = z.strictObject({
  kind: z.literal("list"),
  count: countIn(ARMS_PER_TRIAL, "planner.arms.count"),
});

/** What a lead tells the planner. */
export const plannerRequestSchema = z
  .strictObject({
    arms: z.discriminatedUnion("kind", [factorialSchema, listSchema]),
    /** The fewest and most boxes a set will really have; every size between is looked at. */
    boxesPerSet: z
      .strictObject({
        min: countIn(BOXES_PER_OUTING, "planner.boxes"),
        max: countIn(BOXES_PER_OUTING, "planner.boxes"),
      })
      .refine(({ min, max }) => min <= max, { error: "planner.boxes.order" }),
    /** Expected growers and their sets, by climate group. */
    groups: z
      .array(
        z.strictObject({
          code: codeSchema,
          growers: countIn(PLANNER_LIMITS.growersPerGroup, "planner.growers"),
          setsPerGrower: countIn(PLANNER_LIMITS.setsPerGrower, "planner.sets"),
        }),
      )
      .min(PLANNER_LIMITS.groups.min, { error: "planner.groups.none" })
      .max(PLANNER_LIMITS.groups.max, { error: "planner.groups.many" })
      .refine((groups) => new Set(groups.map(({ code }) => code)).size === groups.length, {
        error: "planner.groups.repeated",
      })
      .readonly(),
    /** Standard deviations of growth: between growers, grower × recipe, sets of one grower, boxes of one set. */
    deviations: z.strictObject({
      grower: deviationSchema,
      growerArm: deviationSchema,
      outing: deviationSchema,
      residual: deviationSchema,
    }),
    deviationsFrom: z.enum(["assumed", "earlier-trial"]),
    /** Difference of mean growth between two recipes that should be found. */
    difference: z
      .number({ error: "planner.difference" })
      .gt(0, { error: "planner.difference" })
      .max(GROWTH_SCALE_WIDTH, { error: "planner.difference" }),
    /** Share of boxes with clean growth under one recipe, and how much more another has; null: not asked. */
    cleanTake: z
      .strictObject({
        baseShare: z
          .number({ error: "planner.cleanTake" })
          .gt(0, { error: "planner.cleanTake" })
          .lt(1, { error: "planner.cleanTake" }),
        difference: z
          .number({ error: "planner.cleanTake" })
          .gt(0, { error: "planner.cleanTake" })
          .lt(1, { error: "planner.cleanTake" }),
      })
      .refine(({ baseShare, difference }) => baseShare + difference < 1, { error: "planner.cleanTake.sum" })
      .nullable(),
    /**
     * Growth as ordered classes: the shares expected in them under one recipe, and how many times higher the odds of
     * another recipe are to lie in the first so many classes; absent: not asked.
     */
    ordinal: z
      .strictObject({
        shares: z
          .array(z.number({ error: "planner.ordinal" }).gt(0, { error: "planner.ordinal" }))
          .min(2, { error: "planner.ordinal" })
          .max(10, { error: "planner.ordinal" })
          .refine((shares) => Math.abs(shares.reduce((sum, share) => sum + share, 0) - 1) < 1e-6, {
            error: "planner.ordinal.sum",
          })
          .readonly(),
        oddsRatio: z
          .number({ error: "planner.oddsRatio" })
          .gt(0, { error: "planner.oddsRatio" })
          .max(1000, { error: "planner.oddsRatio" })
          .refine((ratio) => Math.abs(Math.log(ratio)) > 1e-3, { error: "planner.oddsRatio" }),
      })
      .optional(),
    /** Two recipes that differ by less than this in mean growth count as equally good. */
    margin: z
      .number({ error: "planner.margin" })
      .gt(0, { error: "planner.margin" })
      .max(GROWTH_SCALE_WIDTH, { error: "planner.margin" }),
    /** Of the two-sided test and its interval. */
    level: z
      .number({ error: "planner.level" })
      .min(0.5, { error: "planner.level" })
      .max(0.9999, { error: "planner.level" }),
    /** Share of growers' later sets that are to hold a recipe again on purpose. */
    meetAgainShare: z
      .number({ error: "planner.share" })
      .min(0, { error: "planner.share" })
      .max(1, { error: "planner.share" }),
    /** Of every search and simulation: the same request and seed give the same answer. */
    seed: z.string().min(1, { error: "planner.seed" }).max(60, { error: "planner.seed" }),
  })
  .superRefine((request, context) => {
    const arms = armCountOf(request.arms);
    if (arms < ARMS_PER_TRIAL.min || arms > ARMS_PER_TRIAL.max) {
      context.addIssue({ code: "custom", message: "planner.arms.count", path: ["arms"] });
    }
  })
  .readonly();
export type PlannerRequest = z.infer<typeof plannerRequestSchema>;
export type PlannerArms = PlannerRequest["arms"];

/** How many arms that makes; combinations left out are not counted. */
export function armCountOf(arms: PlannerArms): number {
  return arms.kind === "list" ? arms.count : factorialCells(arms).length;
}

/** The combinations of a factorial that are wanted: grains outermost, minutes innermost. */
export function factorialCells(
  arms: Extract<PlannerArms, { kind: "factorial" }>,
): readonly z.infer<typeof cellSchema>[] {
  const minutes = arms.minutes.length === 0 ? [undefined] : arms.minutes;
  const cells = arms.grains.flatMap((grain) =>
    arms.waterRatios.flatMap((waterRatio) =>
      minutes.map((m) => (m === undefined ? { grain, waterRatio } : { grain, waterRatio, minutes: m })),
    ),
  );
  const left = arms.without ?? [];
  return cells.filter(
    (cell) =>
      !left.some(
        (out) =>
          out.grain === cell.grain && out.waterRatio === cell.waterRatio && out.minutes === cell.minutes,
      ),
  );
}
