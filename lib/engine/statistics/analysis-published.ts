import type { ByStanding, PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { NO_INTERVAL } from "./analysis-figures";
import { analyseTable } from "./analysis-of-table";
import { changedColumns, type SensitivityKind } from "./analysis-sensitivity";
import { seasonResults, warmthResults } from "./analysis-standing";
import { canonicalTable } from "./canonical-columns";
import type { PoolColumns } from "./columns";
import type { PooledTable } from "./pool-columns";
import { extrasOf, type PoolExtras } from "./pool-extras";
import { rowsOfTable } from "./pool-table";
import type { Standings } from "./standing-withholding";
import { MINIMUM } from "./suppression";

/**
 * The analysis as others than the rows' owners may see it: from the boxes of shown cells alone, its seed from those
 * boxes too, nothing of single growers, and no figure that rests on too few households or boxes.
 * @param isShown whether all figures of a cell are
 * @param standings what may be told by season and by warmth, see `showableStandings`
 */
export function publishedAnalysis(
  { result, table, extras: all, plan, newHash }: PooledTable,
  isShown: (cell: { readonly band: string; readonly arm: string }) => boolean,
  { season, warmth }: Standings,
): PoolAnalysis | null {
  if (!result.analysis) return null;
  const extras = { ...all, season, warmth };
  const isLess = { season: season !== all.season, warmth: warmth !== all.warmth };
  const { columns } = table;
  const { labels } = columns;
  const shown = labels.band.map((band) => labels.arm.map((arm) => isShown({ band, arm })));
  const kept = new Int32Array(columns.n)
    .map((_, row) => row)
    .filter((row) => shown[columns.band[row]!]![columns.arm[row]!]!);
  if (kept.length === columns.n) {
    const { seasons, warmth: warmths } = result.analysis;
    const standing = {
      seasons: isLess.season && season && seasons ? seasonResults(columns, season, plan) : seasons,
      warmth: isLess.warmth && warmth && warmths ? warmthResults(columns, warmth, plan) : warmths,
    };
    return guarded({ ...result.analysis, ...standing, growers: [] }, columns, extras, isLess);
  }
  const own = canonicalTable(rowsOfTable(table, kept), newHash?.());
  const ownExtras = extrasOf(extrasOf(extras, kept), own.order);
  const seed = plan.seed === result.data.sha256 ? own.sha256 : plan.seed;
  const analysis = analyseTable(own.table, ownExtras, { ...plan, seed, byGrower: false });
  return guarded(analysis, own.table.columns, ownExtras, isLess);
}

/** Figures that rest on part of the shown cells' boxes: each part, and what it leaves, must be ample or empty. */
function guarded(
  analysis: PoolAnalysis,
  columns: PoolColumns,
  extras: PoolExtras,
  isLess: Readonly<Record<keyof Standings, boolean>>,
): PoolAnalysis {
  const withheld = { boxes: null, outings: null, growers: null } as const;
  return {
    ...analysis,
    clean: analysis.clean.map((one) =>
      isFew(one)
        ? {
            ...one,
            ...withheld,
            difference: null,
            se: null,
            df: null,
            ...NO_INTERVAL,
            oddsRatio: null,
            p: null,
            reason: "WITHHELD",
          }
        : one,
    ),
    cleanTests: analysis.cleanTests.map((one) =>
      isFew(one)
        ? { ...one, ...withheld, statistic: null, df1: null, df2: null, p: null, reason: "WITHHELD" }
        : one,
    ),
    seasons: heldBackIf(isLess.season, analysis.seasons),
    warmth: heldBackIf(isLess.warmth, analysis.warmth),
    reusedSpots:
      analysis.reusedSpots && isReuseThin(columns, extras)
        ? { reused: null, outings: null, reason: "WITHHELD" }
        : analysis.reusedSpots,
    agreement: isThinlyLooked(columns, extras)
      ? { boxes: null, graders: null, kappa: null, alpha: null, ...NO_INTERVAL, reason: "WITHHELD" }
      : analysis.agreement,
    sensitivity: analysis.sensitivity.map((one) =>
      one.contrasts.length > 0 && splitsThinly(one.kind, columns, extras)
        ? { kind: one.kind, ...withheld, contrasts: [], reason: "WITHHELD" }
        : one,
    ),
  };
}

function isFew({
  boxes,
  growers,
}: {
  readonly boxes: number | null;
  readonly growers: number | null;
}): boolean {
  if (boxes === null || growers === null || boxes === 0) return false;
  return boxes < MINIMUM.boxes || growers < MINIMUM.households;
}

function isThinlyLooked(columns: PoolColumns, { masked }: PoolExtras): boolean {
  if (!masked) return false;
  const looked = new Set(masked.row);
  const growers = new Set([...looked].map((row) => columns.grower[row]!));
  return isFew({ boxes: looked.size, growers: growers.size });
}

/** With groups forgotten, too few to compare means too few that may be shown. */
function heldBackIf(isLess: boolean, by: ByStanding | undefined): ByStanding | undefined {
  return by && isLess && by.cells.length === 0 ? { ...by, reason: "WITHHELD" } : by;
}

/** Sets at spots used before, and the others, must each be ample or none. */
function isReuseThin(columns: PoolColumns, { reusedSpot }: PoolExtras): boolean {
  const parts = [0, 1].map(() => ({ boxes: 0, growers: new Set<number>() }));
  reusedSpot?.forEach((part, row) => {
    parts[part]!.boxes++;
    parts[part]!.growers.add(columns.grower[row]!);
  });
  return parts.some(({ boxes, growers }) => isFew({ boxes, growers: growers.size }));
}

const OF_SOME_BOXES: readonly SensitivityKind[] = ["MASKED_GRADES", "AS_COOKED", "SAME_DAY_FETCH"];

/**
 * Whether some cell's boxes are split by the assumption into a part that is neither empty nor ample. How many boxes a
 * shown cell lost is shown anyway.
 */
function splitsThinly(kind: SensitivityKind, columns: PoolColumns, extras: PoolExtras): boolean {
  const changed = OF_SOME_BOXES.includes(kind) ? changedColumns(kind, columns, extras) : null;
  if (!changed) return false;
  const parts = new Map<number, { boxes: number; growers: Set<number> }>();
  const [arms, armsAfter] = [columns.labels.arm.length, changed.labels.arm.length];
  for (let row = 0; row < columns.n; row++) {
    const was = !Number.isNaN(columns.outcome[row]!);
    const is = !Number.isNaN(changed.outcome[row]!);
    if (!was && !is) continue;
    const arm = (columns.band[row]! * arms + columns.arm[row]!) * armsAfter + changed.arm[row]!;
    const key = 3 * arm + (was && is ? 0 : was ? 1 : 2);
    const part = parts.get(key) ?? { boxes: 0, growers: new Set<number>() };
    parts.set(key, part);
    part.boxes++;
    if (part.growers.size < MINIMUM.households) part.growers.add(columns.grower[row]!);
  }
  return [...parts.values()].some(({ boxes, growers }) => isFew({ boxes, growers: growers.size }));
}
