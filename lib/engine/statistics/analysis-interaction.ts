import type { PoolAnalysis, PoolContrast } from "@/shared/schemas/pool-analysis";
import { finite, MINIMUM_GROWERS } from "./analysis-figures";
import type { AnalysisPlan } from "./analysis-plan";
import type { PoolColumns } from "./columns";
import { crossoverTest } from "./crossover";
import { holm } from "./holm";
import { interactionContrasts } from "./interaction-contrasts";
import { type LogitInteraction, logitInteraction } from "./logit-interaction";
import { jointTest } from "./mixed/contrasts";
import type { MixedFit } from "./mixed/types";
import type { PermutationOptions } from "./rank-permutation";

/** Each costs growers × contrasts; a check needs no smaller p than 1/2000. */
const MOST_FLIPS = 1999;

type Interaction = PoolAnalysis["interaction"];

/** Whether differences between arms vary over bands, by the model; whether the ranking does; the ordinal check. */
export function bandInteraction(
  fit: MixedFit,
  columns: PoolColumns,
  contrasts: readonly PoolContrast[],
  { seed, permutations }: AnalysisPlan,
): Interaction {
  return {
    ...interactionTest(fit),
    crossover: crossovers(contrasts),
    cumulativeLogit: ordinalCheck(columns, {
      seed: `${seed}/logit`,
      permutations: Math.min(permutations, MOST_FLIPS),
    }),
  };
}

/** F of arm × band, whatever a fit's bands stand for. */
export function interactionTest(fit: MixedFit): Omit<Interaction, "crossover" | "cumulativeLogit"> {
  const none = { method: "WALD_F" as const, statistic: null, df1: null, df2: null, p: null };
  const weights = interactionWeights(fit);
  if (weights.length === 0) {
    const oneArm = new Set(fit.cells.map(({ arm }) => arm)).size === 1;
    return { ...none, reason: oneArm ? "ONE_ARM" : "ONE_BAND" };
  }
  if (fit.growers < MINIMUM_GROWERS) return { ...none, reason: "TOO_FEW_GROWERS" };
  const test = jointTest(fit, weights);
  if (!test) return { ...none, reason: "NOT_LINKED" };
  return { ...none, statistic: test.f, df1: test.df1, df2: finite(test.df2), p: test.p, reason: null };
}

function interactionWeights(fit: MixedFit) {
  const arms = [...new Set(fit.cells.map(({ arm }) => arm))];
  const bands = [...new Set(fit.cells.map(({ band }) => band))];
  const cells = fit.cells.map(({ arm, band }) => ({ arm: arms.indexOf(arm), band: bands.indexOf(band) }));
  return interactionContrasts(cells).map((weights) =>
    fit.cells.map(({ band, arm }, i) => ({ band, arm, weight: weights[i]! })),
  );
}

function crossovers(contrasts: readonly PoolContrast[]): Interaction["crossover"] {
  const byPair = new Map<string, PoolContrast[]>();
  for (const contrast of contrasts) {
    if (contrast.reason !== null) continue;
    const key = JSON.stringify([contrast.first, contrast.second]);
    byPair.set(key, [...(byPair.get(key) ?? []), contrast]);
  }
  const tests = [...byPair.values()].flatMap((own) => {
    const test = crossoverTest(
      own.map(({ difference, se, df }) => ({
        difference: difference!,
        se: se!,
        df: df ?? Number.POSITIVE_INFINITY,
      })),
    );
    return test ? [{ first: own[0]!.first, second: own[0]!.second, ...test }] : [];
  });
  const adjusted = holm(tests.map(({ p }) => p));
  return tests.map(({ first, second, groups, statistic }, i) => ({
    first,
    second,
    bands: groups,
    statistic,
    p: adjusted[i]!,
    reason: null,
  }));
}

function ordinalCheck(
  { n, outcome, ...columns }: PoolColumns,
  options: PermutationOptions,
): Interaction["cumulativeLogit"] {
  const none = { chiSquare: null, df: null, p: null };
  const rows = new Int32Array(n);
  let measured = 0;
  for (let row = 0; row < n; row++) {
    const y = outcome[row]!;
    if (Number.isNaN(y)) continue;
    if (!(Number.isInteger(y) && y >= 0 && y <= 4)) return { ...none, reason: "NOT_A_GROWTH_CLASS" };
    rows[measured++] = row;
  }
  const of = (values: Int32Array | Float64Array): Int32Array => {
    const own = new Int32Array(measured);
    for (let i = 0; i < measured; i++) own[i] = values[rows[i]!]!;
    return own;
  };
  const boxes = {
    grower: of(columns.grower),
    band: of(columns.band),
    arm: of(columns.arm),
    growth: of(outcome),
  };
  const { chiSquare, df, p, reason } = logitInteraction(boxes, options);
  return { chiSquare, df, p, reason: ordinalReason(reason) };
}

/** A scale all of whose boxes lie at one end has no variation for a reader. */
function ordinalReason(reason: LogitInteraction["reason"]): Interaction["cumulativeLogit"]["reason"] {
  return reason === "SEPARATED" ? "NO_VARIATION" : reason;
}
