import type { PoolContrast, PoolPrediction } from "@/shared/schemas/pool-analysis";
import type { ArmFamily } from "./analysis-family";
import { finite, MINIMUM_GROWERS, NO_INTERVAL, pairsOf, reasonOf, tInterval } from "./analysis-figures";
import type { AnalysisPlan } from "./analysis-plan";
import { tukeyFamily } from "./analysis-tukey";
import { difference, satterthwaite, varianceSlope } from "./mixed/contrasts";
import { combine } from "./mixed/fixed-combination";
import { type GrowerArmPosterior, predictedDifference, trueDifference } from "./mixed/prediction";
import type { MixedEstimate, MixedFit } from "./mixed/types";
import { shrinkBands } from "./shrink-bands";
import type { SimultaneousDifference } from "./tukey-kramer";
import { verdictOf } from "./verdict";

/** Two arms of a band, and whether anything can be said of them. */
export interface Pair {
  readonly band: string;
  readonly first: string;
  readonly second: string;
}

/** All pairs of arms with measured boxes, band by band in the fit's order. */
export function fittedPairs(fit: MixedFit): Pair[] {
  const bands = [...new Set(fit.cells.map(({ band }) => band))];
  return bands.flatMap((band) =>
    pairsOf(fit.cells.filter((cell) => cell.band === band).map(({ arm }) => arm)).map(([first, second]) => ({
      band,
      first,
      second,
    })),
  );
}

/**
 * All pairs within bands by Tukey–Kramer, simultaneous within a band. The fixed-outing fit's and the shrunken figures
 * are filled in by `withFixedOutings` and `withShrunken`.
 */
export function pairContrasts(
  fit: MixedFit,
  families: ReadonlyMap<string, readonly ArmFamily[]>,
  { level, margin }: AnalysisPlan,
): PoolContrast[] {
  const pairs = fittedPairs(fit);
  const differences = new Map(
    pairs.map((pair) => [keyOf(pair), difference(fit, pair.band, pair.first, pair.second)]),
  );
  const intervals = new Map<string, SimultaneousDifference>();
  for (const [band, own] of families) {
    for (const { arms } of own) addSimultaneous(differences, band, arms, level, intervals);
  }
  return pairs.map((pair): PoolContrast => {
    const { band, first, second } = pair;
    const found = differences.get(keyOf(pair))!;
    const none = { difference: null, se: null, df: null, ...NO_INTERVAL, p: null, verdict: null };
    const base = { band, first, second, method: "TUKEY_KRAMER" as const, ...UNFILLED };
    if (!found.estimable) return { ...base, ...none, reason: reasonOf(found.reason) };
    const figures = { difference: found.estimate, se: found.se, df: finite(found.df) };
    const interval = intervals.get(keyOf(pair));
    if (!interval) return { ...base, ...none, ...figures, reason: "NO_VARIATION" };
    if (fit.growers < MINIMUM_GROWERS) return { ...base, ...none, ...figures, reason: "TOO_FEW_GROWERS" };
    const { lower, upper } = interval;
    return { ...base, ...figures, ...interval, verdict: verdictOf(lower, upper, margin), reason: null };
  });
}

const UNFILLED = {
  fixedOuting: { difference: null, se: null },
  shrunken: { difference: null, se: null },
} as const;

function addSimultaneous(
  differences: ReadonlyMap<string, MixedEstimate>,
  band: string,
  arms: readonly string[],
  level: number,
  intervals: Map<string, SimultaneousDifference>,
): void {
  const estimable = pairsOf(arms).flatMap(([first, second]) => {
    const key = keyOf({ band, first, second });
    const found = differences.get(key)!;
    if (!found.estimable || !(found.se > 0)) return [];
    return [{ key, difference: found.estimate, se: found.se, df: found.df }];
  });
  const simultaneous = tukeyFamily(estimable, arms.length, level);
  for (const [i, { key }] of estimable.entries()) intervals.set(key, simultaneous[i]!);
}

/** The same pairs within outings alone, from the fit that holds outings fixed. */
export function withFixedOutings(contrasts: readonly PoolContrast[], fixed: MixedFit | null): PoolContrast[] {
  return contrasts.map((contrast) => {
    const found = fixed && difference(fixed, contrast.band, contrast.first, contrast.second);
    if (!found?.estimable) return contrast;
    return { ...contrast, fixedOuting: { difference: found.estimate, se: found.se } };
  });
}

/** Pairs compared in two bands or more, each drawn towards the difference over all of them. */
export function withShrunken(contrasts: readonly PoolContrast[], priorScale: number): PoolContrast[] {
  const byPair = new Map<string, PoolContrast[]>();
  for (const contrast of contrasts) {
    if (contrast.difference === null || !contrast.se) continue;
    const key = keyOf({ ...contrast, band: "" });
    byPair.set(key, [...(byPair.get(key) ?? []), contrast]);
  }
  const shrunken = new Map<PoolContrast, { difference: number; se: number }>();
  for (const own of byPair.values()) {
    if (own.length < 2) continue;
    const drawn = shrinkBands(
      own.map((one) => ({ difference: one.difference!, se: one.se! })),
      { priorScale },
    );
    for (const [i, one] of own.entries()) shrunken.set(one, drawn[i]!);
  }
  return contrasts.map((contrast) => {
    const own = shrunken.get(contrast);
    return own ? { ...contrast, shrunken: own } : contrast;
  });
}

/**
 * What a new grower would see between two arms, for every pair that can be compared; intervals of this pair alone.
 * @param posterior null where grower × arm is not in the model or has too many growers to need one: its uncertainty
 *   is then in the df
 */
export function pairPredictions(
  fit: MixedFit,
  contrasts: readonly PoolContrast[],
  posterior: GrowerArmPosterior | null,
  { level }: AnalysisPlan,
): PoolPrediction[] {
  const growerArm = fit.variance.growerArm;
  return contrasts.map(({ band, first, second, reason }): PoolPrediction => {
    const nothing = { ...NO_INTERVAL, df: null };
    if (reason)
      return { band, first, second, nextSet: nothing, trueDifference: nothing, sdOverGrowers: null, reason };
    const seen = predictedDifference(fit, band, first, second);
    return {
      band,
      first,
      second,
      nextSet: seen.estimable
        ? { ...tInterval(seen.estimate, seen.se, seen.df, level), df: finite(seen.df) }
        : nothing,
      trueDifference:
        growerArm === null ? nothing : trueInterval(fit, posterior, { band, first, second }, level),
      sdOverGrowers: growerArm === null ? null : Math.sqrt(2 * growerArm),
      reason: null,
    };
  });
}

function trueInterval(
  fit: MixedFit,
  posterior: GrowerArmPosterior | null,
  { band, first, second }: Pair,
  level: number,
): PoolPrediction["trueDifference"] {
  if (posterior) {
    const found = trueDifference(fit, posterior, band, first, second, level);
    return found.estimable
      ? { lower: found.lower, upper: found.upper, df: null }
      : { ...NO_INTERVAL, df: null };
  }
  const combination = combine(fit, [
    { band, arm: first, weight: 1 },
    { band, arm: second, weight: -1 },
  ]);
  if ("reason" in combination) return { ...NO_INTERVAL, df: null };
  const { variance, slope } = varianceSlope(fit, combination);
  const { names } = fit.varianceCovariance;
  const total = variance + 2 * fit.variance.growerArm!;
  const df = satterthwaite(
    fit,
    total,
    slope.map((value, i) => value + (names[i] === "growerArm" ? 2 : 0)),
  );
  return { ...tInterval(combination.estimate, Math.sqrt(total), df, level), df: finite(df) };
}

export function keyOf({ band, first, second }: Pair): string {
  return JSON.stringify([band, first, second]);
}
