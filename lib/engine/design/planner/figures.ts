import type { PlannerArms, PlannerRequest } from "@/shared/schemas/planner";
import type {
  CleanTakeFigures,
  GrowthFigures,
  Needed,
  PlannerFactor,
  PlannerFigures,
  SimulatedChance,
} from "@/shared/schemas/planner-result";
import { tQuantile } from "../../statistics/distributions";
import { carriedPower, type Simulated, type SimulatedPower } from "./arrivals";
import type { DealtDesign } from "./dealt-design";
import { factorContrasts } from "./factors";
import { efficiencyBound, efficiencyOf, type PairVariances, pairVariances } from "./information";
import { differencePower } from "./power";
import {
  type Aims,
  anyDifferenceAt,
  curveOf,
  equivalenceAt,
  neededFor,
  type Prospect,
  pairPowerAt,
  prospectOf,
} from "./prospect";
import { separabilityOf } from "./separability";

export interface FiguresContext {
  readonly group: string | null;
  readonly plannedArms: PlannerArms;
  readonly deviations: PlannerRequest["deviations"];
  readonly aims: Aims;
  readonly simulated: Simulated;
}

/** All figures of a dealt design. */
export function figuresOf(dealt: DealtDesign, context: FiguresContext): PlannerFigures {
  const { replication, information, growers, arms } = dealt;
  const { aims, simulated } = context;
  const pairs = pairVariances(dealt.withGrowers, arms);
  const prospect = pairs && prospectOf(dealt, pairs.mean);
  const growth = pairs && prospect && growthFigures(dealt, pairs, prospect, context);
  const cleanTake = simulated.cleanTake && prospectOf(dealt, carriedVariance(simulated.cleanTake, dealt));
  return {
    group: context.group,
    growers,
    setsPerGrower: dealt.sets / growers,
    sets: dealt.sets,
    boxes: dealt.boxes,
    replication: {
      min: Math.min(...replication),
      mean: replication.reduce((sum, r) => sum + r, 0) / arms,
      max: Math.max(...replication),
    },
    connected: pairs !== null,
    efficiency: efficiencyOf(pairVariances(information, arms), replication),
    efficiencyBound: efficiencyBound(information, replication),
    separability: separabilityOf(dealt.repeats, context.deviations),
    growth,
    cleanTake: cleanTake && cleanTakeFigures(dealt, cleanTake, simulated.cleanTake!, aims),
    curve: prospect && growth ? curveOf(dealt, prospect, aims, cleanTake, growth.needed[1] ?? null) : [],
  };
}

function growthFigures(
  dealt: DealtDesign,
  pairs: PairVariances,
  prospect: Prospect,
  { plannedArms, deviations, aims, simulated }: FiguresContext,
): GrowthFigures {
  const { growers, arms } = dealt;
  const df = prospect.pairDf(growers);
  const worst = prospectOf(dealt, pairs.worst);
  const perGrower = 2 * (deviations.growerArm ** 2 + deviations.residual ** 2 / (dealt.sets / growers));
  return {
    variance: pairs.mean,
    worstVariance: pairs.worst,
    completeGrowers: perGrower / pairs.mean,
    df,
    power: pairPowerAt(prospect, growers, aims),
    worstPairPower: pairPowerAt(worst, growers, aims),
    simulated: simulated.growth && chanceOf(simulated.growth, dealt, aims.difference, aims.alpha, df),
    anyDifference: {
      power: anyDifferenceAt(prospect, growers, arms, aims),
      df1: arms - 1,
      df2: prospect.errorDf(growers),
    },
    equivalencePower: equivalenceAt(prospect, growers, aims),
    halfWidth: df < 1 ? null : tQuantile(1 - aims.alpha / 2, df) * Math.sqrt(pairs.mean),
    needed: neededFor(dealt, (at) => pairPowerAt(prospect, at, aims)),
    equivalenceNeeded: neededFor(dealt, (at) => equivalenceAt(prospect, at, aims)),
    factors: factorPowers(pairs, df, plannedArms, aims),
  };
}

/** By factor, over all its pairs of levels. */
function factorPowers(
  pairs: PairVariances,
  df: number,
  plannedArms: PlannerArms,
  { difference, alpha }: Aims,
): GrowthFigures["factors"] {
  const variances = new Map<PlannerFactor, number[]>();
  for (const { factor, weights } of factorContrasts(plannedArms)) {
    variances.set(factor, [...(variances.get(factor) ?? []), pairs.ofContrast(weights)]);
  }
  return [...variances].map(([factor, all]) => {
    const variance = all.reduce((sum, one) => sum + one, 0) / all.length;
    return { factor, power: differencePower(difference, variance, df, alpha) };
  });
}

function cleanTakeFigures(
  dealt: DealtDesign,
  prospect: Prospect,
  simulated: SimulatedPower,
  aims: Aims,
): CleanTakeFigures {
  const difference = aims.cleanTakeDifference ?? 0;
  const needed: readonly (Needed | null)[] = neededFor(dealt, (growers) =>
    pairPowerAt(prospect, growers, { ...aims, difference }),
  );
  const df = prospect.pairDf(dealt.growers);
  return { ...chanceOf(simulated, dealt, difference, aims.alpha, df), needed };
}

/** The simulated chance itself where all growers were simulated, else carried over to their number. */
function chanceOf(
  simulated: SimulatedPower,
  dealt: DealtDesign,
  difference: number,
  alpha: number,
  df: number,
): SimulatedChance {
  if (dealt.setsByGrower.length < dealt.growers) {
    return carriedPower(simulated, difference, carriedVariance(simulated, dealt), df, alpha);
  }
  const { power, monteCarloError, runs } = simulated;
  return { power, monteCarloError, runs };
}

function carriedVariance(simulated: SimulatedPower, dealt: DealtDesign): number {
  return (simulated.variance * dealt.setsByGrower.length) / dealt.growers;
}
