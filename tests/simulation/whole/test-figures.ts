import { cleanContrasts, cleanTests } from "@/lib/engine/statistics/analysis-clean";
import { bandInteraction } from "@/lib/engine/statistics/analysis-interaction";
import type { AnalysisPlan } from "@/lib/engine/statistics/analysis-plan";
import { binaryOutings } from "@/lib/engine/statistics/binary-outings";
import { conditionalLogistic } from "@/lib/engine/statistics/conditional-logistic";
import { crossoverTest } from "@/lib/engine/statistics/crossover";
import { lossTest } from "@/lib/engine/statistics/loss-test";
import { mantelHaenszel } from "@/lib/engine/statistics/mantel-haenszel";
import { difference, jointTest } from "@/lib/engine/statistics/mixed/contrasts";
import type { MixedFit } from "@/lib/engine/statistics/mixed/types";
import type { PoolTable } from "@/lib/engine/statistics/pool-table";
import { rankBlocks } from "@/lib/engine/statistics/rank-blocks";
import { rankTest } from "@/lib/engine/statistics/rank-test";

/** Figures of one trial by name: 1 or 0, or a share of several that belong together. */
export type Figures = Record<string, number>;

export const LEVEL = 0.95;
/** The climate group half of the growers live in. */
export const LARGEST = "Csb";

/** What rests on the mixed model: 1 where a test rejects. */
export function addModelTests(figures: Figures, fit: MixedFit, table: PoolTable, plan: AnalysisPlan): void {
  const arms = [...new Set(fit.cells.map(({ arm }) => arm))];
  const joint = jointTest(
    fit,
    arms.slice(1).map((arm) => [
      { band: LARGEST, arm, weight: 1 },
      { band: LARGEST, arm: arms[0]!, weight: -1 },
    ]),
  );
  if (joint) figures.joint = rejects(joint.p);
  const interaction = bandInteraction(fit, table.columns, [], plan);
  if (interaction.p !== null) figures.interaction = rejects(interaction.p);
  if (interaction.cumulativeLogit.p !== null) figures.logit = rejects(interaction.cumulativeLogit.p);
  const byBand = ["Csb", "Cfb", "Csa"].flatMap((band) => {
    const found = difference(fit, band, "arm0", "arm1");
    return found.estimable ? [{ difference: found.estimate, se: found.se, df: found.df }] : [];
  });
  const crossover = crossoverTest(byBand);
  if (crossover) figures.crossover = rejects(crossover.p);
}

/** What compares boxes of the same set only. */
export function addTestsWithinOutings(figures: Figures, table: PoolTable, plan: AnalysisPlan): void {
  const { columns, cleanTake } = table;
  const options = { seed: `${plan.seed}/permute`, permutations: plan.permutations };
  const rank = rankTest(rankBlocks(columns), options);
  if (rank.p !== null) figures.plainRank = rejects(rank.p);
  if (rank.clustered.p !== null) figures.rank = rejects(rank.clustered.p);
  const loss = lossTest(columns, options);
  if (loss.p !== null) figures.loss = rejects(loss.p);
  const event = Float64Array.from(cleanTake!, (clean) => (clean < 0 ? Number.NaN : clean));
  const outings = binaryOutings({ ...columns, event });
  const pair = mantelHaenszel(outings, { first: 0, second: 1, level: LEVEL });
  if (pair.difference) figures.cleanDifference = rejects(pair.difference.p);
  const conditional = conditionalLogistic(outings, columns.labels.arm.length, options);
  if (conditional.test) figures.conditional = rejects(conditional.test.p);
  for (const [name, family] of [
    ["cleanFamily", cleanContrasts(table, LEVEL)],
    ["cleanTests", cleanTests(table, options)],
  ] as const) {
    const known = family.flatMap(({ p }) => (p === null ? [] : [p]));
    if (known.length > 0) figures[name] = rejects(Math.min(...known));
  }
}

function rejects(p: number): number {
  return Number(p <= 1 - LEVEL);
}
