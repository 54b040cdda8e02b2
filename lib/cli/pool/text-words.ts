import type { PoolNote, PoolReason } from "@/shared/schemas/pool";
import type { AnalysisReason, AnalysisWarning, PoolAnalysis, Verdict } from "@/shared/schemas/pool-analysis";

export const reasonWords: Readonly<Record<PoolReason | AnalysisReason, string>> = {
  NO_BOXES: "no box with an outcome",
  TOO_FEW_BOXES: "not more boxes than means to estimate",
  TOO_FEW_GROWERS: "not enough growers yet",
  NO_VARIATION: "all alike: no interval",
  NOT_A_GROWTH_CLASS: "not a growth class",
  NOT_MEASURED: "not known of enough boxes",
  NOT_LINKED: "no chain of outings or growers links them",
  AVAILABILITY: "only had by growers with other arms at hand",
  ONE_ARM: "only one recipe",
  ONE_BAND: "only one climate group",
  FEW_SEASONS: "fewer than three seasons",
  NO_BLOCKS: "no outing with two measured boxes",
  NO_REFERENCE: "no recipe to compare with",
  INTERIM: "not before the end",
  WITHHELD: "withheld",
};

export const noteWords: Readonly<Record<PoolNote, string>> = {
  NO_ANALYSED_BOXES: "No box has an outcome.",
  ONE_ARM: "There is only one recipe: nothing to compare.",
  SINGLE_BOX_OUTINGS_SKIPPED: "Outings with a single measured box are left out of the rank test.",
  ARMS_NOT_LINKED:
    "No chain of outings joins all recipes: the rank test compares them within the groups that are joined.",
  UNMEASURED_BOXES: "Boxes graded without an outcome are counted and not analysed.",
  SMALL_CELLS_WITHHELD: "Small cells are withheld.",
  NEWER_RECORDS_WAIT: "Newer records wait until enough households have added some.",
};

export const warningWords: Readonly<Record<AnalysisWarning, string>> = {
  GROWER_ARM_NOT_SEPARABLE:
    "Nothing tells grower x recipe from the other variances (one outing a grower, no recipe met again): they hold the sum.",
  TERM_NOT_SEPARABLE: "Outing and grower can't all be told apart: another variance holds the sum.",
  VARIANCES_BADLY_TOLD_APART: "The variances can be told apart only badly.",
  RESIDUAL_VANISHES: "Boxes alike in recipe, outing and grower hardly differ.",
  ZERO_VARIANCE: "A variance came out at zero; intervals take it as known to be zero.",
  NOT_CONVERGED: "The search for the variances ended early: take every figure as rough.",
  AVAILABILITY_MERGED: "Sets of arms that few growers had at hand were taken together.",
  FIXED_OUTING_GAP:
    "Comparing within outings alone says something else by more than its error: see --sensitivity.",
  FEW_GROWERS: "Fewer than 10 growers: take every interval as rough.",
  NOT_TRANSITIVE: "Pairwise differences need not add up over recipes.",
};

export const verdictWords: Readonly<Record<Verdict, string>> = {
  FIRST_SUPERIOR: "first better",
  SECOND_SUPERIOR: "second better",
  EQUIVALENT: "equally good",
  FIRST_NON_INFERIOR: "first not worse",
  SECOND_NON_INFERIOR: "second not worse",
  UNDECIDED: "undecided",
};

export const sensitivityWords: Readonly<Record<PoolAnalysis["sensitivity"][number]["kind"], string>> = {
  FIXED_OUTINGS: "within outings alone",
  MASKED_GRADES: "masked grades only",
  AS_COOKED: "as cooked",
  SAME_DAY_FETCH: "sets fetched on one day",
  LOST_AS_BEST: "lost boxes as good as the best",
  LOST_AS_WORST: "lost boxes as bad as the worst",
};

export function number(value: number | null): string {
  return value === null ? "-" : value.toFixed(2);
}

/** A difference with its sign. */
export function signed(value: number | null): string {
  return value !== null && value > 0 ? `+${number(value)}` : number(value);
}

export function percent(share: number | null): string {
  return share === null ? "-" : `${(share * 100).toFixed(1)} %`;
}

/** 0.95 as 95 %, 0.999 as 99.9 %. */
export function levelWords(level: number): string {
  return `${Number((level * 100).toPrecision(4))} %`;
}

export function pValue(p: number | null): string {
  if (p === null) return "-";
  return p < 0.0001 ? p.toExponential(1) : p.toFixed(4);
}
