import { z } from "zod";
import { poolAnalysisSchema } from "./pool-analysis";

/**
 * One box as the pool sees it. `grower` is the household's pseudonym: it is the unit the figures are counted in.
 * `outcome` is the primary outcome (growth 0–4 in a trial by the rubric, any finite number in a table of one's
 * own), null when it was not measured; a lost box's outcome is not used. `cleanTake` is null when unknown.
 */
export interface PoolRow {
  readonly grower: string;
  readonly outing: string;
  readonly band: string;
  readonly arm: string;
  readonly outcome: number | null;
  readonly status: "graded" | "lost";
  readonly box?: string | null;
  readonly region?: string | null;
  readonly cleanTake?: boolean | null;
}

/** Why a figure is missing. Each stands beside nulls; a figure that is there has the reason null. */
export const poolReasons = [
  /** No box of this group carries the measure. */
  "NO_BOXES",
  /** Fewer growers than an interval or a test over growers needs. */
  "TOO_FEW_GROWERS",
  /** Every grower (or every box of an outing) gave the same value: nothing to measure uncertainty by. */
  "NO_VARIATION",
  /** The outcome is not a whole number from 0 to 4, so there are no growth classes to count. */
  "NOT_A_GROWTH_CLASS",
  /** Only one recipe: nothing to compare. */
  "ONE_ARM",
  /** No outing has two or more measured boxes. */
  "NO_BLOCKS",
  /** Before the plan's end only what its spending allows is shown: no test. */
  "INTERIM",
  /** Held back because it, or what could be worked out from it, rests on too few households or boxes. */
  "WITHHELD",
] as const;

/** What a reader of the whole result should know. */
export const poolNotes = [
  /** Published figures leave newer boxes out until enough households have added some. */
  "NEWER_RECORDS_WAIT",
  "NO_ANALYSED_BOXES",
  "ONE_ARM",
  "SINGLE_BOX_OUTINGS_SKIPPED",
  "ARMS_NOT_LINKED",
  "UNMEASURED_BOXES",
  "SMALL_CELLS_WITHHELD",
] as const;

/** What a reader of one figure should know. */
export const poolWarnings = [
  /** Fewer growers than the number from which size and coverage were measured by simulation. */
  "FEW_GROWERS",
  /** All boxes alike: the design effect can't be estimated, one box per grower is counted. */
  "DESIGN_EFFECT_NOT_ESTIMABLE",
  "SINGLE_BOX_OUTINGS_SKIPPED",
  /** No chain of outings joins all arms: they are compared within the groups that are joined. */
  "ARMS_NOT_LINKED",
] as const;

const reason = z.enum(poolReasons).nullable();
const warnings = z.array(z.enum(poolWarnings));
const finite = z.number().nullable();
const count = z.number().int().nonnegative().nullable();

/** What a figure rests on. */
const base = { boxes: count, outings: count, growers: count };

/** Boxes drawn, and what became of them; `boxes` − `lost` − `unmeasured` have an outcome. */
const counts = z.object({ ...base, lost: count, unmeasured: count, reason });

/** Mean over growers' own means, with a t interval over them; `boxes` are those with an outcome. */
const mean = z.object({
  ...base,
  method: z.literal("T_OVER_GROWER_MEANS"),
  estimate: finite,
  se: finite,
  df: finite,
  lower: finite,
  upper: finite,
  reason,
  warnings,
});

/** Boxes with growth 0, 1, 2, 3, 4. */
const distribution = z.object({
  ...base,
  method: z.literal("COUNTS"),
  classes: z.array(z.number().int().nonnegative()).length(5).nullable(),
  reason,
  warnings,
});

/** A share of boxes with Wilson's interval at the effective number of boxes; descriptive. */
const share = z.object({
  ...base,
  method: z.literal("WILSON_AT_EFFECTIVE_N"),
  count,
  share: finite,
  designEffect: finite,
  effectiveN: finite,
  df: finite,
  lower: finite,
  upper: finite,
  reason,
  warnings,
});

const armSummary = z.object({ arm: z.string(), counts, mean, distribution, cleanTake: share });

const clusteredRank = z.object({
  method: z.enum(["HOTELLING_F", "PERMUTATION_WITHIN_GROWERS"]),
  statistic: finite,
  df1: finite,
  df2: finite,
  p: finite,
  growers: count,
  permutations: count,
  seed: z.string().nullable(),
  reason,
  warnings,
});

/** The ordinal line: `chiSquare` treats outings as independent, `clustered` growers. */
const rank = z.object({
  ...base,
  method: z.literal("BLOCK_STRATIFIED_ROW_MEAN_SCORES"),
  skippedOutings: count,
  chiSquare: finite,
  df: finite,
  p: finite,
  clustered: clusteredRank,
  reason,
  warnings,
});

/** A look at an open trial after its minimum: what its intervals are widened by, and that it is not the end. */
const interimLook = z.object({
  /** 1 for the first of `looks`, the last of which is the final one. */
  look: z.int().min(1),
  looks: z.int().min(2),
  /** Share of the planned information, and what it was measured by. */
  fraction: z.number().gt(0).lt(1),
  by: z.enum(["boxes", "days"]),
});

/** The pooled result of one data cut, as it is stored: numbers are finite or null, never NaN. */
export const poolResultSchema = z.object({
  engine: z.string(),
  level: z.number().gt(0).lt(1),
  data: z.object({
    rows: count,
    analysed: count,
    lost: count,
    unmeasured: count,
    growers: count,
    outings: count,
    /** SHA-256 of the canonical rows. */
    sha256: z.string().regex(/^[0-9a-f]{64}$/),
    reason,
  }),
  /** The fitted model and all that rests on it; null in results stored by engines before grainlot-pool 2. */
  analysis: poolAnalysisSchema.nullable().default(null),
  /** Null in a final result. */
  interim: interimLook.nullable().default(null),
  cells: z.array(armSummary.extend({ band: z.string() })),
  regions: z.array(armSummary.extend({ region: z.string() })),
  overall: z.array(armSummary),
  totals: z.object({
    byBand: z.array(counts.extend({ band: z.string() })),
    byRegion: z.array(counts.extend({ region: z.string() })),
  }),
  rank,
  rankByBand: z.array(rank.extend({ band: z.string() })),
  loss: z.array(share.extend({ arm: z.string(), lost: count, unmeasured: count })),
  notes: z.array(z.enum(poolNotes)),
});

export type PoolReason = (typeof poolReasons)[number];
export type PoolNote = (typeof poolNotes)[number];
export type PoolWarning = (typeof poolWarnings)[number];
export type PoolResult = z.infer<typeof poolResultSchema>;
export type InterimLook = z.infer<typeof interimLook>;
export type PoolCounts = z.infer<typeof counts>;
export type PoolMean = z.infer<typeof mean>;
export type PoolDistribution = z.infer<typeof distribution>;
export type PoolShare = z.infer<typeof share>;
export type PoolArmSummary = z.infer<typeof armSummary>;
export type PoolRank = z.infer<typeof rank>;
export type PoolClusteredRank = z.infer<typeof clusteredRank>;
