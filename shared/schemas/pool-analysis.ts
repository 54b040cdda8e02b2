import { z } from "zod";

// What the mixed model and everything that rests on it say of one data cut. Numbers are finite or null, never
// NaN; where a figure is null its `reason` says why. Differences are always first − second.

/** Why an analysis, or one figure of it, is missing. */
export const analysisReasons = [
  /** No box with an outcome. */
  "NO_BOXES",
  /** Not more boxes than means to estimate. */
  "TOO_FEW_BOXES",
  "ONE_ARM",
  /** Every outcome is the same: nothing to measure uncertainty by. */
  "NO_VARIATION",
  /** Fewer growers than an interval or a test over growers needs. */
  "TOO_FEW_GROWERS",
  /** No chain of outings or growers links the two recipes. */
  "NOT_LINKED",
  /** The recipes were only had by growers with different recipes at hand: the two can't be told apart. */
  "AVAILABILITY",
  /** Only one climate group has recipes to compare. */
  "ONE_BAND",
  /** Seasons are compared from three with enough growers on. */
  "FEW_SEASONS",
  /** The measure isn't known for enough boxes, or never differs. */
  "NOT_MEASURED",
  /** The plan names no recipe to compare with. */
  "NO_REFERENCE",
  /** The outcome is not a whole number from 0 to 4. */
  "NOT_A_GROWTH_CLASS",
  /** Before the plan's end only what its spending allows is shown: no p and no best. */
  "INTERIM",
  /** Held back because it, or what could be worked out from it, rests on too few households or boxes. */
  "WITHHELD",
] as const;
export type AnalysisReason = (typeof analysisReasons)[number];

export const analysisWarnings = [
  /** One outing per grower and no recipe met again: grower × recipe and residual can't be told apart. */
  "GROWER_ARM_NOT_SEPARABLE",
  /** The same of grower or outing: another variance holds the sum. */
  "TERM_NOT_SEPARABLE",
  /** The variances can be told apart only badly. */
  "VARIANCES_BADLY_TOLD_APART",
  /** Boxes alike in recipe, outing and grower hardly differ: ratios of variances ran to their limit. */
  "RESIDUAL_VANISHES",
  /** A variance came out at zero. */
  "ZERO_VARIANCE",
  /** The search for the variances ended before its gradient was small. */
  "NOT_CONVERGED",
  /** Sets of recipes that few growers could have cooked were pooled into one. */
  "AVAILABILITY_MERGED",
  /** The fit with outings held fixed says something else by more than its uncertainty. */
  "FIXED_OUTING_GAP",
  /** Fewer growers than the number from which size and coverage were measured by simulation. */
  "FEW_GROWERS",
  /** Pairwise Mantel–Haenszel differences need not add up over recipes. */
  "NOT_TRANSITIVE",
] as const;
export type AnalysisWarning = (typeof analysisWarnings)[number];

const finite = z.number().nullable();
const count = z.int().min(0).nullable();
const reason = z.enum(analysisReasons).nullable();
const warnings = z.array(z.enum(analysisWarnings));
/** What a figure rests on. */
const base = { boxes: count, outings: count, growers: count };
const interval = { lower: finite, upper: finite };
const estimated = { difference: finite, se: finite, df: finite, ...interval };
/** Mean of one recipe by the model. */
const armMean = { arm: z.string(), ...base, estimate: finite, se: finite, df: finite, ...interval };

/** By a margin m: superior, the interval lies above 0; equivalent, within ±m; non-inferior, above −m; each also the other way round. */
export const verdicts = [
  "FIRST_SUPERIOR",
  "SECOND_SUPERIOR",
  "EQUIVALENT",
  "FIRST_NON_INFERIOR",
  "SECOND_NON_INFERIOR",
  "UNDECIDED",
] as const;
export type Verdict = (typeof verdicts)[number];
const verdict = z.enum(verdicts).nullable();

export const randomTerms = ["outing", "grower", "grower-arm"] as const;
export type RandomTerm = (typeof randomTerms)[number];

/** How the model was fitted. Variances of terms left out are null. */
const modelRecord = z.object({
  method: z.literal("REML_PROFILED"),
  dfMethod: z.literal("SATTERTHWAITE"),
  ...base,
  random: z.array(z.enum(randomTerms)),
  criterion: finite,
  converged: z.boolean(),
  evaluations: z.int().min(0),
  variance: z.object({ outing: finite, grower: finite, growerArm: finite, residual: finite }),
  growerArmSeparable: z.boolean(),
  warnings,
  reason,
});

/** The comparison the plan states beforehand; null where there is none. */
const primaryComparison = z
  .object({
    kind: z.enum(["all-pairs", "against-best", "against-reference"]),
    arm: z.string().nullable(),
  })
  .nullable();

/** Mean of one recipe in one climate group by the model, and its chances of being the best there. */
const fittedCell = z.object({
  band: z.string(),
  ...armMean,
  /** Of the mean; null under the minimum. */
  chanceBest: finite,
  /** In a grower's next set of boxes. */
  chanceBestNextSet: finite,
  reason,
});

/** Two recipes of one climate group; interval and p are simultaneous over the group's pairs. */
const contrast = z.object({
  band: z.string(),
  first: z.string(),
  second: z.string(),
  method: z.literal("TUKEY_KRAMER"),
  ...estimated,
  p: finite,
  verdict,
  /** The same difference with outings held fixed. */
  fixedOuting: z.object({ difference: finite, se: finite }),
  /** Drawn towards the difference over all climate groups. */
  shrunken: z.object({ difference: finite, se: finite }),
  reason,
});

/** What a new grower would see between two recipes. */
const prediction = z.object({
  band: z.string(),
  first: z.string(),
  second: z.string(),
  /** Between two boxes of one set. */
  nextSet: z.object({ ...interval, df: finite }),
  /** Between the two recipes at that grower's, over many sets; integrates over the uncertainty of the variances. */
  trueDifference: z.object({ ...interval, df: finite }),
  /** Standard deviation over growers of the true difference. */
  sdOverGrowers: finite,
  reason,
});

/** Hsu's comparison of a recipe with the best of the others. */
const best = z.object({
  band: z.string(),
  arm: z.string(),
  method: z.literal("HSU_WITH_THE_BEST"),
  /** Its mean less the best other mean. */
  difference: finite,
  ...interval,
  /** Whether it can't be excluded as the best. */
  mayBeBest: z.boolean().nullable(),
  /** Monte Carlo standard error of the critical value. */
  monteCarloError: finite,
  reason,
});

const againstReference = z.object({
  band: z.string(),
  arm: z.string(),
  reference: z.string(),
  method: z.literal("DUNNETT"),
  ...estimated,
  p: finite,
  verdict,
  monteCarloError: finite,
  reason,
});

const fTest = { statistic: finite, df1: finite, df2: finite, p: finite };

/** Whether differences between recipes vary over climate groups, and whether the ranking does. */
const interaction = z.object({
  method: z.literal("WALD_F"),
  ...fTest,
  /** Gail & Simon (1985) for each pair that is compared in two groups or more; p is Holm's over pairs. */
  crossover: z.array(
    z.object({ first: z.string(), second: z.string(), bands: z.int(), statistic: finite, p: finite, reason }),
  ),
  /** The same question on the cumulative-logit scale. */
  cumulativeLogit: z.object({ chiSquare: finite, df: finite, p: finite, reason }),
  reason,
});

export const factorNames = ["grain", "ratio", "minutes"] as const;

/**
 * Two levels of a factor, between recipes alike in the other factors, averaged over those; over all climate groups
 * where `band` is null. Interval and p are of this comparison alone.
 */
const factorEffect = z.object({
  band: z.string().nullable(),
  factor: z.enum(factorNames),
  first: z.string(),
  second: z.string(),
  ...estimated,
  p: finite,
  reason,
});

/** Mean growth by the moisture the recipes of one grain were assigned, per cent wet basis. */
const moistureCurve = z.object({
  band: z.string(),
  grain: z.string(),
  points: z.array(
    z.object({ arm: z.string(), moisturePercent: z.number(), estimate: finite, ...interval, boxes: count }),
  ),
  /** Growth per ten points of moisture; null with fewer than two moistures. */
  slope: z.object({ ...estimated, p: finite }),
  reason,
});

/** Two recipes of one climate group in shares of clean growth, within outings; p is Holm's over all of these. */
const cleanContrast = z.object({
  band: z.string(),
  first: z.string(),
  second: z.string(),
  method: z.literal("MANTEL_HAENSZEL_BY_OUTING"),
  ...base,
  ...estimated,
  oddsRatio: finite,
  p: finite,
  warnings,
  reason,
});

/** Whether any recipes of a climate group differ in clean growth within outings, the grower as the unit. */
const cleanTest = z.object({
  band: z.string(),
  method: z.literal("CONDITIONAL_LOGISTIC_BY_OUTING"),
  ...base,
  statistic: finite,
  df1: finite,
  df2: finite,
  p: finite,
  reason,
});

/** Whether recipes lost boxes at different rates, by grower. */
const lossTest = z.object({ method: z.string(), ...base, ...fTest, reason });

/** Two or more people on the same boxes. */
const agreement = z.object({
  boxes: count,
  graders: count,
  /** Of the two who graded most in common, quadratic weights. */
  kappa: finite,
  /** Krippendorff's, ordinal, over all, with a bootstrap interval over boxes. */
  alpha: finite,
  ...interval,
  reason,
});

/**
 * Usable grain by the same model: grams per box set out, a lost box counting 0, of the boxes that were weighed or lost.
 * A cell is in it when enough of its boxes were weighed. Interval and p of a pair are simultaneous over its climate
 * group.
 */
const usable = z.object({
  /** Rests on boxes weighed or lost. */
  cells: z.array(
    z.object({
      band: z.string(),
      ...armMean,
      reason,
    }),
  ),
  contrasts: z.array(
    z.object({
      band: z.string(),
      first: z.string(),
      second: z.string(),
      method: z.literal("TUKEY_KRAMER"),
      ...estimated,
      p: finite,
      reason,
    }),
  ),
  reason,
});

/**
 * Recipes by what boxes of all climate groups stood in (the season of set-out, how warm it was): the same model with these
 * in the groups' place.
 */
const byStanding = z.object({
  method: z.literal("WALD_F"),
  /** Codes of those that enough growers had boxes in, in order (shared/vocabulary/season.ts, exposure.ts). */
  present: z.array(z.string()),
  /** Empty with too few to compare. */
  cells: z.array(
    z.object({
      group: z.string(),
      ...armMean,
      reason,
    }),
  ),
  /** Whether differences between recipes vary over them. */
  ...fTest,
  reason,
});

/** Sets of boxes that stood where one of the trial had stood on an earlier day, of all sets with such knowledge. */
const reusedSpots = z.object({ reused: count, outings: count, reason });

export const sensitivityKinds = [
  "FIXED_OUTINGS",
  "MASKED_GRADES",
  "AS_COOKED",
  "SAME_DAY_FETCH",
  "LOST_AS_BEST",
  "LOST_AS_WORST",
] as const;

/** The main contrasts once more, something being otherwise. */
const sensitivity = z.object({
  kind: z.enum(sensitivityKinds),
  ...base,
  contrasts: z.array(
    z.object({
      band: z.string(),
      first: z.string(),
      second: z.string(),
      difference: finite,
      se: finite,
      ...interval,
    }),
  ),
  reason,
});

/** For the trial's lead only: what one grower's boxes say and move. */
const growerView = z.object({
  grower: z.string(),
  band: z.string(),
  first: z.string(),
  second: z.string(),
  /** That grower's own difference, and the weight of the grower's boxes in the pooled one (0–1). */
  difference: finite,
  weight: finite,
  /** How the pooled difference would change without that grower, one step at the fitted variances; null where unknown. */
  shiftWithout: finite,
});

export const poolAnalysisSchema = z.object({
  /** Of the intervals; wider than the plan's before its end, by the spending it states. */
  level: z.number().gt(0).lt(1),
  margin: finite,
  seed: z.string(),
  primary: primaryComparison,
  model: modelRecord,
  cells: z.array(fittedCell),
  contrasts: z.array(contrast),
  prediction: z.array(prediction),
  best: z.array(best),
  againstReference: z.array(againstReference),
  interaction,
  factors: z.array(factorEffect),
  moisture: z.array(moistureCurve),
  clean: z.array(cleanContrast),
  /** Holm's p over climate groups. */
  cleanTests: z.array(cleanTest).default([]),
  lossTest,
  agreement,
  /** Results of engines before 2.1 have none. */
  usable: usable.optional(),
  /** Where results are to be seen and it is known. */
  seasons: byStanding.optional(),
  /** Observational: where and when boxes stand is the growers' choice. */
  warmth: byStanding.optional(),
  reusedSpots: reusedSpots.optional(),
  sensitivity: z.array(sensitivity),
  /** Empty in what is published. */
  growers: z.array(growerView),
});
export type PoolAnalysis = z.infer<typeof poolAnalysisSchema>;
export type FittedCell = PoolAnalysis["cells"][number];
export type PoolContrast = PoolAnalysis["contrasts"][number];
export type UsableGrain = z.infer<typeof usable>;
export type ByStanding = z.infer<typeof byStanding>;
export type ReusedSpots = z.infer<typeof reusedSpots>;
export type PoolPrediction = PoolAnalysis["prediction"][number];
