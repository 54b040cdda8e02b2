import { verdictOf } from "@/lib/engine/statistics/verdict";
import type { FittedCell, PoolAnalysis, PoolContrast } from "@/shared/schemas/pool-analysis";

/** Growth of one recipe in one climate group, as an invented result would have it. */
export interface InventedCell {
  readonly band: string;
  readonly arm: string;
  readonly estimate: number;
  readonly chanceBest: number;
  readonly mayBeBest: boolean;
}

const BASE = { boxes: 40, outings: 30, growers: 20 } as const;

/**
 * An invented analysis around the means given: every difference has the standard error .3 on 30 df and an interval
 * of ± .9. Numbers are for layout and wording only; nothing in them was measured.
 */
export function inventedAnalysis(
  given: readonly InventedCell[],
  { margin = 0.5, primary = "against-best" as "against-best" | "all-pairs" } = {},
): PoolAnalysis {
  const cells = given.map(
    ({ band, arm, estimate, chanceBest }): FittedCell => ({
      band,
      arm,
      ...BASE,
      estimate,
      se: 0.2,
      df: 30,
      lower: estimate - 0.4,
      upper: estimate + 0.4,
      chanceBest,
      chanceBestNextSet: 0.5 * chanceBest + 0.5 / given.length,
      reason: null,
    }),
  );
  const contrasts = given.flatMap((first, place) =>
    given
      .slice(place + 1)
      .filter((second) => second.band === first.band)
      .map((second): PoolContrast => contrastOf(first, second, margin)),
  );
  return {
    level: 0.95,
    margin,
    seed: "invented",
    primary: { kind: primary, arm: null },
    model: {
      method: "REML_PROFILED",
      dfMethod: "SATTERTHWAITE",
      boxes: 240,
      outings: 80,
      growers: 40,
      random: ["outing", "grower", "grower-arm"],
      criterion: 812.345,
      converged: true,
      evaluations: 23,
      variance: { outing: 0.16, grower: 0.25, growerArm: 0.04, residual: 0.81 },
      growerArmSeparable: true,
      warnings: [],
      reason: null,
    },
    cells,
    contrasts,
    prediction: contrasts.map(({ band, first, second, difference }) => ({
      band,
      first,
      second,
      nextSet: { lower: difference! - 2.4, upper: difference! + 2.4, df: 30 },
      trueDifference: { lower: difference! - 1.2, upper: difference! + 1.2, df: 30 },
      sdOverGrowers: 0.28,
      reason: null,
    })),
    best: given.map(({ band, arm, estimate, mayBeBest }) => {
      const others = given.filter((one) => one.band === band && one.arm !== arm);
      const difference = estimate - Math.max(...others.map((one) => one.estimate));
      return {
        band,
        arm,
        method: "HSU_WITH_THE_BEST",
        difference,
        lower: Math.min(0, difference - 0.8),
        upper: mayBeBest ? Math.max(0.1, difference + 0.8) : 0,
        mayBeBest,
        monteCarloError: 0.0004,
        reason: null,
      };
    }),
    againstReference: [],
    interaction: {
      method: "WALD_F",
      statistic: 2.5,
      df1: 4,
      df2: 60,
      p: 0.052,
      crossover: [],
      cumulativeLogit: { chiSquare: 8.1, df: 4, p: 0.088, reason: null },
      reason: null,
    },
    factors: [],
    moisture: [],
    cleanTests: [],
    clean: [],
    lossTest: {
      method: "HOTELLING_F",
      ...BASE,
      statistic: 1.1,
      df1: 2,
      df2: 18,
      p: 0.354,
      reason: null,
    },
    agreement: { boxes: 24, graders: 2, kappa: 0.81, alpha: 0.79, lower: 0.66, upper: 0.88, reason: null },
    sensitivity: [],
    growers: [],
  };
}

function contrastOf(first: InventedCell, second: InventedCell, margin: number): PoolContrast {
  const difference = first.estimate - second.estimate;
  return {
    band: first.band,
    first: first.arm,
    second: second.arm,
    method: "TUKEY_KRAMER",
    difference,
    se: 0.3,
    df: 30,
    lower: difference - 0.9,
    upper: difference + 0.9,
    p: 0.2,
    verdict: verdictOf(difference - 0.9, difference + 0.9, margin),
    fixedOuting: { difference: difference + 0.02, se: 0.32 },
    shrunken: { difference: difference * 0.8, se: 0.27 },
    reason: null,
  };
}
