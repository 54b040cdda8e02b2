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
  /** Mantel–Haenszel of the first two arms, and what it would say if outings were independent. */
  readonly difference: SimulatedShare;
  readonly byOuting: SimulatedShare;
  /** All arms alike, by conditional logistic regression. */
  readonly conditional: SimulatedShare;
  /** Share of trials with an answer by conditional logistic regression. */
  readonly answered: SimulatedShare;
}

const PERMUTATIONS = 199;

export function simulateCleanTake(trial: SimulatedTrial, runs: number, seed: string): CleanTakeAlarms {
  const alarms = { difference: [] as number[], byOuting: [] as number[] };
  const [conditional, answered] = [[] as number[], [] as number[]];
  const note = (to: number[], p: number | undefined): void => {
    if (p !== undefined) to.push(Number(p <= 0.05));
  };
  for (let run = 0; run < runs; run++) {
    const columns = cleanTakes(simulateTrial(trial, `${seed}/${run}`));
    const pair = { first: 0, second: 1, level: 0.95 };
    const clustered = mantelHaenszel(binaryOutings(columns), pair);
    note(alarms.difference, clustered.difference?.p);
    // Every outing its own grower.
    note(
      alarms.byOuting,
      mantelHaenszel(binaryOutings({ ...columns, grower: columns.outing }), pair).difference?.p,
    );
    const options = { seed: `${seed}/${run}/permute`, permutations: PERMUTATIONS };
    const fit = conditionalLogistic(binaryOutings(columns), trial.arms, options);
    note(conditional, fit.test?.p);
    answered.push(Number(fit.test !== null));
  }
  return {
    difference: shareOver(alarms.difference),
    byOuting: shareOver(alarms.byOuting),
    conditional: shareOver(conditional),
    answered: shareOver(answered),
  };
}

const GROWERS_FOR_TRUTH = 40_000;

/** How often the 95 % interval of the first two arms' odds ratio holds what very many growers show; of its finite ones. */
export function simulateOddsRatio(trial: SimulatedTrial, runs: number, seed: string): SimulatedShare {
  const pair = { first: 0, second: 1, level: 0.95 };
  const ratioOf = (own: SimulatedTrial, name: string) =>
    mantelHaenszel(binaryOutings(cleanTakes(simulateTrial(own, name))), pair).oddsRatio;
  const { estimate: truth } = ratioOf({ ...trial, growers: GROWERS_FOR_TRUTH }, `${seed}/truth`)!;
  const held: number[] = [];
  for (let run = 0; run < runs; run++) {
    const found = ratioOf(trial, `${seed}/${run}`);
    if (!found) continue;
    const { lower, upper } = found;
    held.push(Number(lower <= truth && truth <= (upper ?? Number.POSITIVE_INFINITY)));
  }
  return shareOver(held);
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
    const boxes = {
      grower: rows.map(({ grower }) => Number(grower.slice(1))),
      band: rows.map(({ band }) => bands.indexOf(band)),
      arm: rows.map(({ arm }) => Number(arm.slice(3))),
      growth: rows.map(({ outcome }) => outcome!),
    };
    const { p } = logitInteraction(boxes, { seed: `${seed}/${run}`, permutations: 499 });
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
