import { growerMeanInterval } from "@/lib/engine/statistics/grower-means";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { type GroupTally, rowsByGrower, tallyGroups } from "@/lib/engine/statistics/pool-tallies";
import { rankBlocks } from "@/lib/engine/statistics/rank-blocks";
import { rankTest } from "@/lib/engine/statistics/rank-test";
import { cleanTakeShare, lossShare } from "@/lib/engine/statistics/shares";
import type { PoolRow } from "@/shared/schemas/pool";
import {
  DEFAULT_LOSS_SHARE,
  type SimulatedTrial,
  simulateTrial,
  trueCleanShare,
  trueMeanGrowth,
} from "./simulated-trial";

/** A share over simulated runs with the error it has because the runs are finitely many. */
export interface SimulatedShare {
  readonly share: number;
  /** Standard error over runs; figures of one run are averaged first, as they belong together. */
  readonly monteCarloError: number;
  readonly runs: number;
}

export interface RankSize {
  readonly plain: SimulatedShare;
  readonly clustered: SimulatedShare;
}

export interface IntervalCoverage {
  readonly mean: SimulatedShare;
  readonly cleanTake: SimulatedShare;
  readonly loss: SimulatedShare;
}

const PERMUTATIONS = 199;
const BANDS = ["Cfb", "Csa", "Csb"] as const;

/** What some rows together add up to. */
export function tallyOf(rows: readonly PoolRow[]): GroupTally {
  const table = poolTable(rows);
  return tallyGroups(table, rowsByGrower(table.columns), new Int32Array(table.columns.n), 1)[0]!;
}

/** How often the rank tests call equal arms different at 5 %. */
export function simulateRankSize(trial: SimulatedTrial, runs: number, seed: string): RankSize {
  const plain: number[] = [];
  const clustered: number[] = [];
  for (let run = 0; run < runs; run++) {
    const rows = simulateTrial(trial, `${seed}/${run}`);
    const test = rankTest(rankBlocks(poolTable(rows).columns), {
      seed: `${seed}/${run}/permute`,
      permutations: PERMUTATIONS,
    });
    plain.push(Number(test.p! <= 0.05));
    clustered.push(Number(test.clustered.p! <= 0.05));
  }
  return { plain: shareOver(plain), clustered: shareOver(clustered) };
}

/**
 * How often 95 % intervals hold the truth: mean growth and clean take of each arm in each band, loss of each arm.
 * Cells without an interval (fewer than two growers, no variation) are not counted.
 */
export function simulateCoverage(trial: SimulatedTrial, runs: number, seed: string): IntervalCoverage {
  const covered = { mean: [] as number[], cleanTake: [] as number[], loss: [] as number[] };
  const arms = Array.from({ length: trial.arms }, (_, arm) => arm);
  for (let run = 0; run < runs; run++) {
    const rows = simulateTrial(trial, `${seed}/${run}`);
    const cells = BANDS.flatMap((band) =>
      arms.map((arm) => ({
        band,
        arm,
        own: rows.filter((row) => row.band === band && row.arm === `arm${arm}`),
      })),
    );
    const growth = cells.flatMap(({ band, arm, own }) =>
      holds(growerMeanInterval(tallyOf(own), 0.95), trueMeanGrowth(trial, arm, band)),
    );
    const clean = cells.flatMap(({ band, arm, own }) =>
      holds(cleanTakeShare(tallyOf(own), 0.95), trueCleanShare(trial, arm, band)),
    );
    const lost = arms.flatMap((arm) => {
      const own = rows.filter((row) => row.arm === `arm${arm}`);
      return holds(lossShare(tallyOf(own), 0.95), trial.lossShare ?? DEFAULT_LOSS_SHARE);
    });
    pushAverage(covered.mean, growth);
    pushAverage(covered.cleanTake, clean);
    pushAverage(covered.loss, lost);
  }
  return {
    mean: shareOver(covered.mean),
    cleanTake: shareOver(covered.cleanTake),
    loss: shareOver(covered.loss),
  };
}

function holds(
  { lower, upper }: { readonly lower: number | null; readonly upper: number | null },
  truth: number,
): number[] {
  return lower === null || upper === null ? [] : [Number(lower <= truth && truth <= upper)];
}

function pushAverage(to: number[], values: readonly number[]): void {
  if (values.length > 0) to.push(average(values));
}

/** Mean and Monte Carlo error of one figure per run. */
export function shareOver(perRun: readonly number[]): SimulatedShare {
  const share = average(perRun);
  const squares = perRun.reduce((sum, x) => sum + (x - share) ** 2, 0);
  const runs = perRun.length;
  return { share, monteCarloError: Math.sqrt(squares / (runs - 1) / runs), runs };
}

function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
