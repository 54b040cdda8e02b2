import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { estimatedOf, pairsOf } from "./analysis-figures";
import type { AnalysisPlan, ArmFactors } from "./analysis-plan";
import { tUpperTail } from "./distributions";
import { cellMean, contrast } from "./mixed/contrasts";
import type { CellWeight, MixedFit } from "./mixed/types";

type FactorEffect = PoolAnalysis["factors"][number];
type MoistureCurve = PoolAnalysis["moisture"][number];
type FactorName = FactorEffect["factor"];

const FACTORS = ["grain", "ratio", "minutes"] as const;

/**
 * Levels of each factor against each other, by band and over all bands alike. Only recipes that are alike in the other
 * factors are set against each other, so that grain is not mistaken for water; pairs of levels without any are left
 * out. Water and minutes are factors where they vary within a grain: what a grain always gets is part of it.
 */
export function factorEffects(fit: MixedFit, plan: AnalysisPlan): FactorEffect[] {
  const bands = [...new Set(fit.cells.map(({ band }) => band))];
  const varying = FACTORS.filter((factor) => factor === "grain" || variesWithinGrain(plan, factor));
  return varying.flatMap((factor) => {
    const others = varying.filter((name) => name !== factor);
    const levels = new Set([...plan.factors.values()].map((arm) => arm[factor]));
    const known = [...levels].filter((level) => level !== null).sort();
    return pairsOf(known).flatMap(([first, second]) => {
      const byBand = bands.map((band) => ({
        band,
        weights: matched(fit, band, plan, { factor, others, first, second }),
      }));
      const having = byBand.filter(({ weights }) => weights.length > 0);
      const over = having.flatMap(({ weights }) =>
        weights.map((one) => ({ ...one, weight: one.weight / having.length })),
      );
      const rows = having.length > 1 ? [...having, { band: null, weights: over }] : having;
      return rows.map(({ band, weights }) => ({
        band,
        factor,
        first,
        second,
        ...tested(fit, weights, plan),
      }));
    });
  });
}

function variesWithinGrain({ factors }: AnalysisPlan, factor: FactorName): boolean {
  const arms = [...factors.values()];
  return arms.some((one) => arms.some((other) => one.grain === other.grain && one[factor] !== other[factor]));
}

interface Levels {
  readonly factor: FactorName;
  /** What matched recipes have alike. */
  readonly others: readonly FactorName[];
  readonly first: string;
  readonly second: string;
}

/** Weights of the mean difference between matched recipes of a band; empty where none match. */
function matched(
  fit: MixedFit,
  band: string,
  { factors }: AnalysisPlan,
  { factor, others, first, second }: Levels,
): CellWeight[] {
  const strata = new Map<string, { first: string[]; second: string[] }>();
  for (const { arm } of fit.cells.filter((cell) => cell.band === band)) {
    const own = factors.get(arm);
    if (!own || (own[factor] !== first && own[factor] !== second)) continue;
    const key = JSON.stringify(others.map((name) => own[name]));
    const stratum = strata.get(key) ?? { first: [], second: [] };
    strata.set(key, stratum);
    stratum[own[factor] === first ? "first" : "second"].push(arm);
  }
  const full = [...strata.values()].filter((own) => own.first.length > 0 && own.second.length > 0);
  return full.flatMap((own) => [
    ...own.first.map((arm) => ({ band, arm, weight: 1 / own.first.length / full.length })),
    ...own.second.map((arm) => ({ band, arm, weight: -1 / own.second.length / full.length })),
  ]);
}

function tested(fit: MixedFit, weights: readonly CellWeight[], { level }: AnalysisPlan) {
  const { estimate, ...figures } = estimatedOf(contrast(fit, weights), { level, growers: fit.growers });
  const p =
    figures.reason === null
      ? 2 * tUpperTail(Math.abs(estimate!) / figures.se!, figures.df ?? Number.POSITIVE_INFINITY)
      : null;
  return { difference: estimate, ...figures, p };
}

/** Growth by assigned moisture, per band and grain with two moistures or more. */
export function moistureCurves(fit: MixedFit, plan: AnalysisPlan): MoistureCurve[] {
  const bands = [...new Set(fit.cells.map(({ band }) => band))];
  return bands.flatMap((band) => {
    const arms = fit.cells.flatMap(({ band: own, arm, boxes }) => {
      const factors = plan.factors.get(arm);
      return own === band && hasMoisture(factors) ? [{ arm, boxes, ...factors }] : [];
    });
    const grains = [...new Set(arms.map(({ grain }) => grain))].sort();
    return grains.flatMap((grain): MoistureCurve[] => {
      const points = arms
        .filter((one) => one.grain === grain)
        .sort((a, b) => a.moisturePercent - b.moisturePercent);
      const centre = points.reduce((sum, one) => sum + one.moisturePercent, 0) / points.length;
      const squares = points.reduce((sum, one) => sum + (one.moisturePercent - centre) ** 2, 0);
      if (!(squares > 0)) return [];
      const weights = points.map(({ arm, moisturePercent }) => ({
        band,
        arm,
        weight: (PER_TEN_POINTS * (moisturePercent - centre)) / squares,
      }));
      const { reason, ...slope } = tested(fit, weights, plan);
      return [
        {
          band,
          grain,
          points: points.map(({ arm, boxes, moisturePercent }) => {
            const { estimate, lower, upper } = estimatedOf(cellMean(fit, band, arm), {
              level: plan.level,
              growers: fit.growers,
            });
            return { arm, moisturePercent, estimate, lower, upper, boxes };
          }),
          slope,
          reason,
        },
      ];
    });
  });
}

const PER_TEN_POINTS = 10;

function hasMoisture(
  factors: ArmFactors | undefined,
): factors is ArmFactors & { grain: string; moisturePercent: number } {
  return factors !== undefined && factors.grain !== null && factors.moisturePercent !== null;
}
