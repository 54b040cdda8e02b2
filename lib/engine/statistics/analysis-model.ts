import type { AnalysisWarning, PoolAnalysis, PoolContrast } from "@/shared/schemas/pool-analysis";
import { finite } from "./analysis-figures";
import { normalQuantile } from "./distributions";
import { FEW_GROWERS } from "./grower-means";
import type { MixedFit, MixedFitResult, MixedWarning, RandomTerm } from "./mixed/types";

type ModelRecord = PoolAnalysis["model"];

const TERM_WORDS = { outing: "outing", grower: "grower", growerArm: "grower-arm" } as const;

/** How the model was fitted, or why it wasn't. */
export function modelRecord(result: MixedFitResult, random: readonly RandomTerm[]): ModelRecord {
  const base = {
    method: "REML_PROFILED" as const,
    dfMethod: "SATTERTHWAITE" as const,
    random: random.map((term) => TERM_WORDS[term]),
  };
  if (!result.ok) {
    return {
      ...base,
      boxes: null,
      outings: null,
      growers: null,
      criterion: null,
      converged: false,
      evaluations: 0,
      variance: { outing: null, grower: null, growerArm: null, residual: null },
      growerArmSeparable: false,
      warnings: [],
      reason: result.reason,
    };
  }
  const { fit } = result;
  return {
    ...base,
    boxes: fit.boxes,
    outings: fit.outings,
    growers: fit.growers,
    criterion: finite(fit.criterion),
    converged: fit.converged,
    evaluations: fit.evaluations,
    variance: fit.variance,
    growerArmSeparable: fit.variance.growerArm !== null,
    warnings: warningsOf(fit),
    reason: null,
  };
}

function warningsOf({ warnings, growers }: MixedFit): AnalysisWarning[] {
  const own = warnings.map(warningOf);
  if (growers < FEW_GROWERS) own.push("FEW_GROWERS");
  return [...new Set(own)];
}

function warningOf(warning: MixedWarning): AnalysisWarning {
  switch (warning.code) {
    case "ZERO":
      return "ZERO_VARIANCE";
    case "NOT_SEPARABLE":
      return warning.term === "growerArm" ? "GROWER_ARM_NOT_SEPARABLE" : "TERM_NOT_SEPARABLE";
    case "FLAT":
      return "VARIANCES_BADLY_TOLD_APART";
    case "SETS_MERGED":
      return "AVAILABILITY_MERGED";
    case "NOT_CONVERGED":
    case "RESIDUAL_VANISHES":
      return warning.code;
  }
}

/** The main fit uses outings too; where those agree with what is within outings, little more error is left than this. */
const LEAST_SHARE = 0.05;

/**
 * Whether some pair's difference with outings held fixed lies further from the main one than the additional error
 * allows: |gap| against √(se_fixed² − se²) (Hausman 1978, Econometrica 46:1251–1271), at 5 % over all pairs
 * (Bonferroni).
 */
export function hasFixedOutingGap(contrasts: readonly PoolContrast[]): boolean {
  const both = contrasts.filter((one) => one.difference !== null && one.fixedOuting.difference !== null);
  const bound = -normalQuantile(0.025 / Math.max(1, both.length));
  return both.some(({ difference, se, fixedOuting }) => {
    const spread = Math.max(fixedOuting.se! ** 2 - se! ** 2, (LEAST_SHARE * fixedOuting.se!) ** 2);
    return Math.abs(difference! - fixedOuting.difference!) > bound * Math.sqrt(spread);
  });
}
