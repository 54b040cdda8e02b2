import type { ByStanding, ReusedSpots } from "@/shared/schemas/pool-analysis";
import { estimatedOf } from "./analysis-figures";
import { interactionTest } from "./analysis-interaction";
import type { AnalysisPlan } from "./analysis-plan";
import type { PoolColumns } from "./columns";
import { byCodeUnit } from "./grouping";
import { cellMean } from "./mixed/contrasts";
import { fitMixedModel } from "./mixed/fit-mixed-model";
import type { RowGroups } from "./pool-extras";

/** With fewer, a difference between seasons is a difference between two stretches of weather. */
export const MINIMUM_SEASONS = 3;
export const MINIMUM_WARMTHS = 2;

/** Recipes by season of set-out. */
export function seasonResults(columns: PoolColumns, season: RowGroups, plan: AnalysisPlan): ByStanding {
  return resultsBy(columns, season, plan, { atLeast: MINIMUM_SEASONS, reason: "FEW_SEASONS" });
}

/** Recipes by how warm it was while boxes stood out. */
export function warmthResults(columns: PoolColumns, warmth: RowGroups, plan: AnalysisPlan): ByStanding {
  return resultsBy(columns, warmth, plan, { atLeast: MINIMUM_WARMTHS, reason: "NOT_MEASURED" });
}

/**
 * Mean growth of every recipe in every group and whether differences between recipes vary over groups: the analysis' own
 * model with these groups in the climate groups' place, so that a grower's boxes of several groups stay that
 * grower's. A group counts when as many growers had a measured box in it as the plan asks of a cell.
 */
function resultsBy(
  columns: PoolColumns,
  groups: RowGroups,
  plan: AnalysisPlan,
  few: { readonly atLeast: number; readonly reason: NonNullable<ByStanding["reason"]> },
): ByStanding {
  const enough = groupsOfEnough(columns, groups, plan.minimum.growersPerCell);
  const present = groups.labels.filter((label) => enough.has(label)).sort(byCodeUnit);
  const none = { method: "WALD_F" as const, statistic: null, df1: null, df2: null, p: null };
  const base = { ...none, present, cells: [] };
  if (present.length < few.atLeast) return { ...base, reason: few.reason };
  const result = fitMixedModel(inGroups(columns, groups, present), { random: plan.random });
  if (!result.ok) return { ...base, reason: result.reason };
  const { fit } = result;
  const test = interactionTest(fit);
  return {
    ...test,
    present,
    cells: fit.cells.map(({ band, arm, boxes, outings, growers }) => ({
      group: band,
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

function groupsOfEnough(
  { n, outcome, grower }: PoolColumns,
  { labels, index }: RowGroups,
  minimum: number,
): Set<string> {
  const growers = labels.map(() => new Set<number>());
  for (let row = 0; row < n; row++) {
    const own = growers[index[row]!];
    if (own && own.size < minimum && !Number.isNaN(outcome[row]!)) own.add(grower[row]!);
  }
  return new Set(labels.filter((_, g) => growers[g]!.size >= minimum));
}

/**
 * The columns with these groups as bands; boxes of none of them count as not measured. So do boxes of another group
 * than the first of their outing: where published boxes wait for others, an outing's may be of two states.
 */
function inGroups(
  columns: PoolColumns,
  { labels, index }: RowGroups,
  wanted: readonly string[],
): PoolColumns {
  const place = labels.map((label) => wanted.indexOf(label));
  const band = columns.band.map((_, row) => place[index[row]!] ?? -1);
  const ofOuting = new Int32Array(columns.labels.outing.length).fill(-1);
  const outcome = columns.outcome.map((y, row) => {
    const outing = columns.outing[row]!;
    if (Number.isNaN(y) || band[row]! < 0) return Number.NaN;
    if (ofOuting[outing]! < 0) ofOuting[outing] = band[row]!;
    return ofOuting[outing] === band[row] ? y : Number.NaN;
  });
  return {
    ...columns,
    labels: { ...columns.labels, band: wanted },
    band: band.map((own) => Math.max(0, own)),
    outcome,
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
