import type { ReusedSpots, SeasonResults } from "@/shared/schemas/pool-analysis";
import { estimatedOf } from "./analysis-figures";
import { interactionTest } from "./analysis-interaction";
import type { AnalysisPlan } from "./analysis-plan";
import type { PoolColumns } from "./columns";
import { byCodeUnit } from "./grouping";
import { cellMean } from "./mixed/contrasts";
import { fitMixedModel } from "./mixed/fit-mixed-model";
import type { PoolExtras } from "./pool-extras";

/** With fewer, a difference between seasons is a difference between two stretches of weather. */
export const MINIMUM_SEASONS = 3;

type Season = NonNullable<PoolExtras["season"]>;

/**
 * Mean growth of every recipe in every season and whether differences between recipes vary over seasons: the
 * analysis' own model with seasons in the climate groups' place, so that a grower's boxes of several seasons stay that
 * grower's. A season counts when as many growers had a measured box in it as the plan asks of a cell.
 */
export function seasonResults(columns: PoolColumns, season: Season, plan: AnalysisPlan): SeasonResults {
  const present = seasonsOfEnough(columns, season, plan.minimum.growersPerCell);
  const none = { method: "WALD_F" as const, statistic: null, df1: null, df2: null, p: null };
  const labels = season.labels.filter((label) => present.has(label)).sort(byCodeUnit);
  const base = { ...none, present: labels, cells: [] };
  if (labels.length < MINIMUM_SEASONS) return { ...base, reason: "FEW_SEASONS" };
  const result = fitMixedModel(bySeason(columns, season, labels), { random: plan.random });
  if (!result.ok) return { ...base, reason: result.reason };
  const { fit } = result;
  const test = interactionTest(fit);
  return {
    ...test,
    present: labels,
    cells: fit.cells.map(({ band, arm, boxes, outings, growers }) => ({
      season: band,
      arm,
      boxes,
      outings,
      growers,
      ...estimatedOf(cellMean(fit, band, arm), { level: plan.level, growers: fit.growers }),
    })),
    // No recipe was out in two of them.
    reason: test.reason === "ONE_BAND" ? "NOT_LINKED" : test.reason,
  };
}

function seasonsOfEnough(
  { n, outcome, grower }: PoolColumns,
  { labels, index }: Season,
  minimum: number,
): Set<string> {
  const growers = labels.map(() => new Set<number>());
  for (let row = 0; row < n; row++) {
    const own = growers[index[row]!];
    if (own && own.size < minimum && !Number.isNaN(outcome[row]!)) own.add(grower[row]!);
  }
  return new Set(labels.filter((_, s) => growers[s]!.size >= minimum));
}

/** The columns with these seasons as bands; boxes of none of them count as not measured. */
function bySeason(columns: PoolColumns, { labels, index }: Season, wanted: readonly string[]): PoolColumns {
  const place = labels.map((label) => wanted.indexOf(label));
  const placeOf = (row: number): number => place[index[row]!] ?? -1;
  return {
    ...columns,
    labels: { ...columns.labels, band: wanted },
    band: columns.band.map((_, row) => Math.max(0, placeOf(row))),
    outcome: columns.outcome.map((y, row) => (placeOf(row) < 0 ? Number.NaN : y)),
  };
}

/** How many sets of boxes stood at a spot that had one of the trial's before. */
export function reusedSpots({ n, outing }: PoolColumns, reusedSpot: Uint8Array): ReusedSpots {
  const [all, reused] = [new Set<number>(), new Set<number>()];
  for (let row = 0; row < n; row++) {
    all.add(outing[row]!);
    if (reusedSpot[row] === 1) reused.add(outing[row]!);
  }
  return { reused: reused.size, outings: all.size, reason: null };
}
