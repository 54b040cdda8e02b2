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

export const DESIGN_KINDS = ["complete", "balanced", "resolvable", "cyclic", "optimised"] as const;
export type DesignKind = (typeof DESIGN_KINDS)[number];

/** What limits efficiency from above: what one set can tell of contrasts, or that recipes are used unequally often. */
export type EfficiencyBound = "WITHIN_SETS" | "UNEQUAL_REPLICATION";

/** A chance, and its Monte Carlo standard error with the number of runs when it was simulated. */
export interface SimulatedChance {
  readonly power: number;
  readonly monteCarloError: number;
  readonly runs: number;
}

/** Growers and boxes that reach a power; null in place of it: not within 100,000 growers. */
export interface Needed {
  readonly power: 0.8 | 0.9;
  readonly growers: number;
  readonly boxes: number;
}

/** What a design can find about mean growth in one group. */
export interface GrowthFigures {
  /** Mean over all pairs, and of the worst pair: variance of the estimated difference of two recipes' mean growth. */
  readonly variance: number;
  readonly worstVariance: number;
  /** The growers that would give the same variance if each met every recipe in every set of theirs. */
  readonly completeGrowers: number;
  /** Degrees of freedom of the t test and interval of one pair. */
  readonly df: number;
  /** Chance that the test of one pair finds the stated difference. */
  readonly power: number;
  readonly worstPairPower: number;
  /**
   * The same by simulated arrivals and a test that is robust against unequal growers; null for complete sets, for all
   * groups together and for designs far down the list.
   */
  readonly simulated: SimulatedChance | null;
  /** Chance that the F test of all recipes finds that two differ so much, the others between them. */
  readonly anyDifference: { readonly power: number; readonly df1: number; readonly df2: number };
  /** Chance that the interval of two equal recipes lies within ± margin. */
  readonly equivalencePower: number;
  /** Half the expected width of the interval of one difference; null without a degree of freedom. */
  readonly halfWidth: number | null;
  readonly needed: readonly (Needed | null)[];
  readonly equivalenceNeeded: readonly (Needed | null)[];
  /** For a factorial: chance to find the stated difference between two levels of one factor. */
  readonly factors: readonly { readonly factor: PlannerFactor; readonly power: number }[];
}
export type PlannerFactor = "grain" | "waterRatio" | "minutes";

export interface CleanTakeFigures extends SimulatedChance {
  readonly needed: readonly (Needed | null)[];
}

/** One point of the curve of power against growers, everything else kept. */
export interface CurvePoint {
  readonly growers: number;
  readonly difference: number;
  readonly anyDifference: number;
  readonly equivalence: number;
  readonly cleanTake: number | null;
}

/** Whether grower × recipe and the residual can be told apart. */
export interface Separability {
  /** Share of growers with a recipe in more than one of their sets. */
  readonly growersMeetingAgain: number;
  /** Standard error of the variance of grower × recipe over that variance and the residual's; null: not estimable. */
  readonly error: number | null;
  /** Whether that is at most a quarter. */
  readonly separable: boolean;
  /** Share of later sets that must hold a recipe again; 0: it happens by itself; null: not reachable with these sets. */
  readonly shareNeeded: number | null;
}

/** One design in one climate group, or in all of them together. */
export interface PlannerFigures {
  /** null: all groups together, as if recipes did the same everywhere. */
  readonly group: string | null;
  readonly growers: number;
  /** For all groups together the mean. */
  readonly setsPerGrower: number;
  readonly sets: number;
  readonly boxes: number;
  readonly replication: { readonly min: number; readonly mean: number; readonly max: number };
  readonly connected: boolean;
  /** 2/(mean replication × mean pairwise variance), in units of the residual variance; 0 when not connected. */
  readonly efficiency: number;
  readonly efficiencyBound: { readonly value: number; readonly by: EfficiencyBound };
  readonly separability: Separability;
  /** null when the design is not connected. */
  readonly growth: GrowthFigures | null;
  /** null when not asked for, not connected, for all groups together and for designs far down the list. */
  readonly cleanTake: CleanTakeFigures | null;
  readonly curve: readonly CurvePoint[];
}

export interface PlannerDesign {
  readonly kind: DesignKind;
  readonly boxesPerSet: number;
  /** Sets after which the design is whole (balanced, or every recipe equally often); null: no such number. */
  readonly period: number | null;
  /** The first sets, as places of arms from 0. */
  readonly firstSets: readonly (readonly number[])[];
  readonly groups: readonly PlannerFigures[];
  /** null when there is one group. */
  readonly together: PlannerFigures | null;
}

/** What follows from the figures; words stand with whoever shows them. `group` as in the figures. */
export type PlannerAdvice =
  /** No group reaches 80 % with these arms, and so many would. */
  | {
      readonly code: "FEWER_ARMS";
      readonly group: string;
      readonly arms: number;
      readonly growers: number;
      readonly armsThatDo: number;
    }
  /** So many growers would reach 80 %; fewer arms don't. */
  | {
      readonly code: "MORE_GROWERS";
      readonly group: string;
      readonly growers: number;
      readonly growersThatDo: number | null;
    }
  | { readonly code: "ENOUGH"; readonly group: string; readonly power: number }
  /** The same number of sets spread over more growers. */
  | {
      readonly code: "GROWERS_BEFORE_SETS";
      readonly group: string;
      readonly power: number;
      readonly growersInstead: number;
      readonly setsInstead: number;
      readonly powerInstead: number;
    }
  | {
      readonly code: "MEET_AGAIN";
      readonly group: string;
      readonly share: number;
      readonly planned: number;
    }
  | { readonly code: "NOT_SEPARABLE"; readonly group: string; readonly setsPerGrower: number }
  | {
      readonly code: "NOT_CONNECTED";
      readonly group: string;
      readonly sets: number;
      readonly setsNeeded: number;
    }
  | { readonly code: "FEW_GROWERS"; readonly group: string; readonly growers: number }
  | {
      readonly code: "EQUIVALENCE_FAR";
      readonly group: string;
      readonly margin: number;
      readonly power: number;
      readonly growersThatDo: number | null;
    };

export interface PlannerResult {
  readonly ok: true;
  readonly arms: number;
  readonly level: number;
  readonly difference: number;
  readonly margin: number;
  readonly deviations: PlannerRequest["deviations"];
  readonly deviationsFrom: PlannerRequest["deviationsFrom"];
  readonly seed: string;
  /** Best first: by the mean power over groups. */
  readonly designs: readonly PlannerDesign[];
  /** For the first design. */
  readonly advice: readonly PlannerAdvice[];
  /**
   * Boxes per recipe to find the odds ratio, each box from a grower of its own (Whitehead 1993): the least there can
   * be; null when not asked.
   */
  readonly ordinal: readonly { readonly power: 0.8 | 0.9; readonly boxesPerArm: number }[] | null;
  /** Names the ways the figures were made. */
  readonly methods: {
    readonly difference: "noncentral-t-growers-minus-1";
    readonly anyDifference: "noncentral-F";
    readonly equivalence: "two-one-sided-t";
    readonly cleanTake: "simulated-clustered-t";
  };
}

/** No group has enough sets to join all arms by any design. */
export interface PlannerRefusal {
  readonly ok: false;
  readonly reason: "NO_GROUP_CONNECTED";
  /** In the group with the most sets. */
  readonly sets: number;
  readonly setsNeeded: number;
}

/** A running trial's design as it stands in one climate group; no outcome is read. */
export interface DesignFigures {
  readonly group: string;
  readonly sets: number;
  readonly boxes: number;
  /** By arm in the plan's order. */
  readonly replication: readonly number[];
  /** Places of arms with under half the mean number of boxes. */
  readonly thinArms: readonly number[];
  readonly connected: boolean;
  readonly efficiency: number;
  /** null before the first draw. */
  readonly efficiencyBound: { readonly value: number; readonly by: EfficiencyBound } | null;
  /**
   * Half the expected width of the interval of a mean pairwise difference at the planned end and for the worst
   * pair; null: not connected yet, or one grower.
   */
  readonly halfWidthAtEnd: number | null;
  readonly worstHalfWidthAtEnd: number | null;
  readonly growersAtEnd: number;
  readonly setsAtEnd: number;
}
