import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { finite, NO_INTERVAL, pairsOf } from "./analysis-figures";
import { type BinaryOuting, binaryOutings } from "./binary-outings";
import { conditionalLogistic } from "./conditional-logistic";
import { holm } from "./holm";
import { mantelHaenszel } from "./mantel-haenszel";
import type { PoolTable } from "./pool-table";
import type { PermutationOptions } from "./rank-permutation";

type CleanContrast = PoolAnalysis["clean"][number];
type CleanTest = PoolAnalysis["cleanTests"][number];

/** Shares of clean growth, all pairs of arms within bands by Mantel–Haenszel; empty where no box's is known. */
export function cleanContrasts(table: PoolTable, level: number): CleanContrast[] {
  const { arm } = table.columns.labels;
  return adjusted(
    knownOutings(table).flatMap(({ band, outings, arms }) =>
      pairsOf(arms).map((pair) => pairContrast(band, pair, outings, arm, level)),
    ),
  );
}

/** All arms of a band at once by conditional logistic regression; empty where no box's clean growth is known. */
export function cleanTests(table: PoolTable, { seed, permutations }: PermutationOptions): CleanTest[] {
  return adjusted(
    knownOutings(table).map(({ band, outings, arms }) =>
      bandTest(band, outings, arms, { seed: `${seed}/${band}`, permutations }),
    ),
  );
}

/** Boxes whose clean growth is known, by outing and band; arms by number. */
function knownOutings({ columns, cleanTake }: PoolTable) {
  if (cleanTake === null) return [];
  const { labels, lost } = columns;
  return labels.band.map((band, b) => {
    const event = Float64Array.from(cleanTake, (clean, row) =>
      clean < 0 || lost[row] === 1 || columns.band[row] !== b ? Number.NaN : clean,
    );
    const outings = binaryOutings({ ...columns, event });
    const arms = [...new Set(outings.flatMap((outing) => outing.arms))].sort((a, c) => a - c);
    return { band, outings, arms };
  });
}

/** With Holm's p for the known ones. */
function adjusted<T extends { readonly p: number | null }>(tests: readonly T[]): T[] {
  const known = tests.filter(({ p }) => p !== null);
  const ps = holm(known.map(({ p }) => p!));
  return tests.map((one) => (one.p === null ? one : { ...one, p: ps[known.indexOf(one)]! }));
}

function bandTest(
  band: string,
  outings: readonly BinaryOuting[],
  arms: readonly number[],
  options: PermutationOptions,
): CleanTest {
  const place = new Map(arms.map((arm, i) => [arm, i]));
  const own = outings.map((outing) => ({ ...outing, arms: outing.arms.map((arm) => place.get(arm)!) }));
  const {
    method,
    boxes,
    outings: informative,
    growers,
    test,
    reason,
  } = conditionalLogistic(own, arms.length, options);
  const figures = test ?? { statistic: null, df1: null, df2: null, p: null };
  const why = test ? null : reason === null || reason === "SEPARATED" ? "NO_VARIATION" : reason;
  return { band, method, boxes, outings: informative, growers, ...figures, reason: why };
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
