import type { PoolRow } from "@/shared/schemas/pool";
import { groupBy } from "./grouping";
import { isAnalysed } from "./grower-means";

/** One outing's part in the ordinal line. */
export interface RankBlock {
  readonly grower: string;
  /** Arm number of each measured box. */
  readonly arms: readonly number[];
  /** rank/(k + 1) − 1/2 of each box among the outing's k, ties sharing their mean rank: sums to 0. */
  readonly scores: readonly number[];
}

export interface RankBlocks {
  /** Arm names in code-unit order; an arm's number is its place here. */
  readonly arms: readonly string[];
  readonly blocks: readonly RankBlock[];
  /** Outings with a single measured box: nothing to rank it against. */
  readonly skippedOutings: number;
}

/**
 * Ranks the measured boxes of every outing among themselves. Outings and their boxes are put in order, so that
 * sums come out the same to the last bit whatever order the rows are in.
 */
export function rankBlocks(rows: readonly PoolRow[]): RankBlocks {
  const measured = rows.filter(isAnalysed);
  const outings = [...groupBy(measured, (row) => row.outing).values()];
  const usable = outings.filter((outing) => outing.length >= 2);
  const arms = [...groupBy(usable.flat(), (row) => row.arm).keys()];
  const armNumber = new Map(arms.map((arm, number) => [arm, number]));
  const blocks = usable.map((outing) => {
    const sorted = [...outing].sort(
      (a, b) => armNumber.get(a.arm)! - armNumber.get(b.arm)! || a.outcome - b.outcome,
    );
    return {
      grower: sorted[0]!.grower,
      arms: sorted.map((row) => armNumber.get(row.arm)!),
      scores: midranks(sorted.map((row) => row.outcome)).map((rank) => rank / (sorted.length + 1) - 0.5),
    };
  });
  return { arms, blocks, skippedOutings: outings.length - usable.length };
}

/** Ranks from 1, equal values sharing the mean of their ranks. */
export function midranks(values: readonly number[]): number[] {
  const order = values.map((_, i) => i).sort((i, j) => values[i]! - values[j]!);
  const ranks = values.map(() => 0);
  for (let first = 0; first < order.length; ) {
    let last = first;
    while (last + 1 < order.length && values[order[last + 1]!] === values[order[first]!]) last++;
    for (let place = first; place <= last; place++) ranks[order[place]!] = (first + last) / 2 + 1;
    first = last + 1;
  }
  return ranks;
}
