import { binaryOutings } from "@/lib/engine/statistics/binary-outings";
import { conditionalLogistic } from "@/lib/engine/statistics/conditional-logistic";
import { logitInteraction } from "@/lib/engine/statistics/logit-interaction";
import { lossTest } from "@/lib/engine/statistics/loss-test";
import { mantelHaenszel } from "@/lib/engine/statistics/mantel-haenszel";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { rankBlocks } from "@/lib/engine/statistics/rank-blocks";
import { rankTest } from "@/lib/engine/statistics/rank-test";
import type { PoolRow } from "@/shared/schemas/pool";
import { type SimulatedShare, shareOver } from "./pool-simulation";
import { type SimulatedTrial, simulateTrial } from "./simulated-trial";

/** How often each test calls arms different at 5 %; runs in which a test gives no answer are not counted. */
export interface CleanTakeAlarms {
  /** Mantel–Haenszel difference of the first two arms, and what it would say if outings were independent. */
  readonly difference: SimulatedShare;
  readonly byOuting: SimulatedShare;
  readonly oddsRatio: SimulatedShare;
  /** All arms alike, by conditional logistic regression. */
  readonly conditional: SimulatedShare;
  /** Share of trials with an answer by conditional logistic regression. */
  readonly answered: SimulatedShare;
}

const PERMUTATIONS = 199;

export function simulateCleanTake(trial: SimulatedTrial, runs: number, seed: string): CleanTakeAlarms {
  const alarms = { difference: [] as number[], byOuting: [] as number[], oddsRatio: [] as number[] };
  const [conditional, answered] = [[] as number[], [] as number[]];
  const note = (to: number[], p: number | undefined): void => {
    if (p !== undefined) to.push(Number(p <= 0.05));
  };
  for (let run = 0; run < runs; run++) {
    const columns = cleanTakes(simulateTrial(trial, `${seed}/${run}`));
    const pair = { first: 0, second: 1, level: 0.95 };
    const clustered = mantelHaenszel(binaryOutings(columns), pair);
    note(alarms.difference, clustered.difference?.p);
    note(alarms.oddsRatio, clustered.oddsRatio?.p);
    // Every outing its own grower.
    note(
      alarms.byOuting,
      mantelHaenszel(binaryOutings({ ...columns, grower: columns.outing }), pair).difference?.p,
    );
    const fit = conditionalLogistic(binaryOutings(columns), trial.arms);
    note(conditional, fit.test?.p);
    answered.push(Number(fit.test !== null));
  }
  return {
    difference: shareOver(alarms.difference),
    byOuting: shareOver(alarms.byOuting),
    oddsRatio: shareOver(alarms.oddsRatio),
    conditional: shareOver(conditional),
    answered: shareOver(answered),
  };
}

export interface LossAlarms {
  readonly clustered: SimulatedShare;
  /** With outings taken as independent. */
  readonly plain: SimulatedShare;
}

export function simulateLossTest(trial: SimulatedTrial, runs: number, seed: string): LossAlarms {
  const clustered: number[] = [];
  const plain: number[] = [];
  for (let run = 0; run < runs; run++) {
    const { columns } = poolTable(simulateTrial(trial, `${seed}/${run}`));
    const options = { seed: `${seed}/${run}/permute`, permutations: PERMUTATIONS };
    const { p } = lossTest(columns, options);
    if (p === null) continue;
    clustered.push(Number(p <= 0.05));
    const asOutcome = { ...columns, outcome: Float64Array.from(columns.lost) };
    plain.push(Number(rankTest(rankBlocks(asOutcome), { ...options, permutations: 1 }).p! <= 0.05));
  }
  return { clustered: shareOver(clustered), plain: shareOver(plain) };
}

/** How often arms that add up with climate groups on the latent scale are said to differ over groups at 5 %. */
export function simulateLogitInteraction(trial: SimulatedTrial, runs: number, seed: string): SimulatedShare {
  const alarms: number[] = [];
  for (let run = 0; run < runs; run++) {
    const rows = simulateTrial(trial, `${seed}/${run}`).filter(({ outcome }) => outcome !== null);
    const bands = [...new Set(rows.map(({ band }) => band))];
    const { p } = logitInteraction({
      grower: rows.map(({ grower }) => Number(grower.slice(1))),
      band: rows.map(({ band }) => bands.indexOf(band)),
      arm: rows.map(({ arm }) => Number(arm.slice(3))),
      growth: rows.map(({ outcome }) => outcome!),
    });
    if (p !== null) alarms.push(Number(p <= 0.05));
  }
  return shareOver(alarms);
}

function cleanTakes(rows: readonly PoolRow[]) {
  const outings = [...new Set(rows.map(({ outing }) => outing))];
  const place = new Map(outings.map((outing, i) => [outing, i]));
  return {
    grower: rows.map(({ grower }) => Number(grower.slice(1))),
    outing: rows.map(({ outing }) => place.get(outing)!),
    arm: rows.map(({ arm }) => Number(arm.slice(3))),
    event: rows.map(({ cleanTake }) => (typeof cleanTake === "boolean" ? Number(cleanTake) : Number.NaN)),
  };
}
