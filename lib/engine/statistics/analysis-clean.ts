import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { finite, NO_INTERVAL, pairsOf } from "./analysis-figures";
import { type BinaryOuting, binaryOutings } from "./binary-outings";
import { holm } from "./holm";
import { mantelHaenszel } from "./mantel-haenszel";
import type { PoolTable } from "./pool-table";

type CleanContrast = PoolAnalysis["clean"][number];

/** Shares of clean growth, all pairs of arms within bands; empty where no box's is known. */
export function cleanContrasts({ columns, cleanTake }: PoolTable, level: number): CleanContrast[] {
  if (cleanTake === null) return [];
  const { labels, band, lost } = columns;
  const event = Float64Array.from(cleanTake, (clean, row) =>
    clean < 0 || lost[row] === 1 ? Number.NaN : clean,
  );
  const contrasts = labels.band.flatMap((name, b) => {
    const own = Float64Array.from(event, (value, row) => (band[row] === b ? value : Number.NaN));
    const outings = binaryOutings({ ...columns, event: own });
    const arms = [...new Set(outings.flatMap((outing) => outing.arms))].sort((a, c) => a - c);
    return pairsOf(arms).map((pair) => pairContrast(name, pair, outings, labels.arm, level));
  });
  const tested = contrasts.filter(({ p }) => p !== null);
  const adjusted = holm(tested.map(({ p }) => p!));
  return contrasts.map((one) => (one.p === null ? one : { ...one, p: adjusted[tested.indexOf(one)]! }));
}

function pairContrast(
  band: string,
  [first, second]: readonly [number, number],
  outings: readonly BinaryOuting[],
  arms: readonly string[],
  level: number,
): CleanContrast {
  const found = mantelHaenszel(outings, { first, second, level });
  const { method, boxes, outings: compared, growers, df, difference, oddsRatio, reason } = found;
  const base = {
    band,
    first: arms[first]!,
    second: arms[second]!,
    method,
    boxes,
    outings: compared,
    growers,
    warnings: arms.length > 2 ? (["NOT_TRANSITIVE"] as const).slice() : [],
    reason,
  };
  if (!difference)
    return { ...base, difference: null, se: null, df: null, ...NO_INTERVAL, oddsRatio: null, p: null };
  const { estimate, se, lower, upper, p } = difference;
  const odds = oddsRatio?.estimate ?? null;
  return { ...base, difference: estimate, se, df: finite(df), lower, upper, oddsRatio: odds, p };
}
