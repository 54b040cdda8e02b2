import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { seededSource } from "../random/source";
import { type ArmFamily, familyOf } from "./analysis-family";
import { finite, MINIMUM_GROWERS, NO_INTERVAL } from "./analysis-figures";
import type { AnalysisPlan } from "./analysis-plan";
import { differenceVariance } from "./arm-means";
import { bestChances, chanceDimensions } from "./best-chance";
import { compareWithBest } from "./best-comparisons";
import { compareWithReference } from "./dunnett";
import type { MixedFit } from "./mixed/types";
import { type NormalPoints, normalPoints } from "./normal-points";
import { verdictOf } from "./verdict";

type Families = ReadonlyMap<string, readonly ArmFamily[]>;
type Best = PoolAnalysis["best"][number];
type AgainstReference = PoolAnalysis["againstReference"][number];

/** Points enough for any of the families: everything here that is drawn looks at the same ones. */
export function pointsFor(families: Families, { seed }: AnalysisPlan): NormalPoints {
  const most = [...families.values()].flat().reduce((arms, family) => Math.max(arms, family.arms.length), 1);
  return normalPoints(chanceDimensions(most), seededSource(`${seed}/points`));
}

/** Every arm with the best of the others, by band; only where all of a band's arms are linked. */
export function comparisonsWithBest(
  fit: MixedFit,
  families: Families,
  points: NormalPoints,
  { level }: AnalysisPlan,
): Best[] {
  return [...families].flatMap(([band, own]) => {
    const arms = own.flatMap((family) => family.arms);
    const base = { band, method: "HSU_WITH_THE_BEST" as const };
    const reason =
      arms.length === 1
        ? ("ONE_ARM" as const)
        : own.length > 1
          ? ("NOT_LINKED" as const)
          : whyNoFamily(fit, own[0]!);
    if (reason) {
      const none = { difference: null, ...NO_INTERVAL, mayBeBest: null, monteCarloError: null, reason };
      return arms.map((arm): Best => ({ ...base, arm, ...none }));
    }
    const found = compareWithBest(own[0]!.means, { level, points });
    return found.map(({ arm, ...figures }): Best => ({ ...base, arm: arms[arm]!, ...figures, reason: null }));
  });
}

/** Every arm less the reference, by band; empty without a reference. */
export function comparisonsWithReference(
  fit: MixedFit,
  families: Families,
  points: NormalPoints,
  { level, margin, reference }: AnalysisPlan,
): AgainstReference[] {
  if (reference === null) return [];
  return [...families].flatMap(([band, own]) =>
    own.flatMap((family) => {
      const place = family.arms.indexOf(reference);
      const others = family.arms.filter((arm) => arm !== reference);
      const base = { band, reference, method: "DUNNETT" as const };
      const reason = place < 0 ? ("NOT_LINKED" as const) : whyNoFamily(fit, family);
      if (reason) return others.map((arm): AgainstReference => ({ ...base, arm, ...NO_COMPARISON, reason }));
      if (others.length === 0) return [];
      const { comparisons } = compareWithReference(family.means, { reference: place, level, points });
      return comparisons.map(
        ({ arm, difference, se, lower, upper, p, pMonteCarloError }): AgainstReference => ({
          ...base,
          arm: family.arms[arm]!,
          difference,
          se,
          df: finite(family.means.df),
          lower,
          upper,
          p,
          verdict: verdictOf(lower, upper, margin),
          monteCarloError: pMonteCarloError,
          reason: null,
        }),
      );
    }),
  );
}

const NO_COMPARISON = {
  difference: null,
  se: null,
  df: null,
  ...NO_INTERVAL,
  p: null,
  verdict: null,
  monteCarloError: null,
} as const;

/** Chance to be the best of its band, of the mean and in a new grower's next set. */
export interface CellChance {
  readonly ofMean: number;
  readonly ofNextSet: number;
}

/**
 * By band and arm, among the band's arms that reach the minimum; nothing for a band where fewer than two do or they
 * aren't linked.
 * @param priorScale of the spread of arms, in units of the outcome
 */
export function cellChances(
  fit: MixedFit,
  families: Families,
  points: NormalPoints,
  { minimum }: AnalysisPlan,
  priorScale: number,
): (band: string, arm: string) => CellChance | null {
  const chances = new Map<string, CellChance>();
  const boxVariance = (fit.variance.growerArm ?? 0) + fit.variance.residual!;
  for (const [band, own] of families) {
    const ample = fit.cells
      .filter((cell) => cell.band === band)
      .filter(({ boxes, growers }) => boxes >= minimum.boxesPerCell && growers >= minimum.growersPerCell)
      .map(({ arm }) => arm);
    const family = own.find(({ arms }) => ample.every((arm) => arms.includes(arm)));
    if (!family || ample.length < 2) continue;
    const kept = ample.length === family.arms.length ? family : familyOf(fit, band, ample);
    if (whyNoFamily(fit, kept)) continue;
    const nextSet = { shifts: ample.map(() => 0), variances: ample.map(() => boxVariance) };
    const { ofMean, ofNextSet } = bestChances(kept.means, { priorScale, nextSet, points });
    kept.arms.forEach((arm, i) => {
      chances.set(JSON.stringify([band, arm]), {
        ofMean: ofMean.chances[i]!,
        ofNextSet: ofNextSet.chances[i]!,
      });
    });
  }
  return (band, arm) => chances.get(JSON.stringify([band, arm])) ?? null;
}

/** Why a linked family's arms can't be compared all together, or null. */
function whyNoFamily(fit: MixedFit, { arms, means }: ArmFamily): "TOO_FEW_GROWERS" | "NO_VARIATION" | null {
  if (fit.growers < MINIMUM_GROWERS) return "TOO_FEW_GROWERS";
  const varies = arms.every((_, a) =>
    arms.every((__, b) => a === b || differenceVariance(means.covariance, a, b) > 0),
  );
  return varies ? null : "NO_VARIATION";
}
