import { seededSource } from "@/lib/engine/random/source";
import {
  cellChances,
  comparisonsWithBest,
  comparisonsWithReference,
  pointsFor,
} from "@/lib/engine/statistics/analysis-best";
import { type ArmFamily, armFamilies } from "@/lib/engine/statistics/analysis-family";
import { pairsOf, tInterval } from "@/lib/engine/statistics/analysis-figures";
import type { AnalysisPlan } from "@/lib/engine/statistics/analysis-plan";
import { cellMean, difference } from "@/lib/engine/statistics/mixed/contrasts";
import { fitMixedModel } from "@/lib/engine/statistics/mixed/fit-mixed-model";
import {
  growerArmPosterior,
  predictedDifference,
  trueDifference,
} from "@/lib/engine/statistics/mixed/prediction";
import { type MixedEstimate, type MixedFit, RANDOM_TERMS } from "@/lib/engine/statistics/mixed/types";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { studentizedRangeUpperTail } from "@/lib/engine/statistics/studentized-range";
import {
  newGrowerDifference,
  normalsFrom,
  type SimulatedBand,
  type SimulatedTrial,
  simulateTrial,
  trueMeanGrowth,
} from "@/tests/engine/statistics/simulated-trial";
import { addModelTests, addTestsWithinOutings, type Figures, LARGEST, LEVEL } from "./test-figures";

/** A chance to be the best as claimed, and whether that arm is the best. */
export interface Claim {
  readonly claimed: number;
  readonly true: boolean;
}

export interface TrialFigures {
  readonly figures: Figures;
  readonly claims: readonly Claim[];
}

/** Standard errors at which not even a single comparison with all degrees of freedom is significant. */
const NEVER_SIGNIFICANT = 1.9;
const PERMUTATIONS = 199;
const NEW_GROWERS = 20;
/** The pool's for growth 0–4. */
const PRIOR_SCALE = 0.5;
const SMALLEST = "Csa";

/** What the pool says of one invented trial, against its truth. */
export function figuresOfTrial(trial: SimulatedTrial, seed: string): TrialFigures {
  const table = poolTable(simulateTrial(trial, seed));
  const plan = planOf(seed);
  const result = fitMixedModel(table.columns, { random: RANDOM_TERMS });
  const figures: Figures = { converged: Number(result.ok && result.fit.converged) };
  addTestsWithinOutings(figures, table, plan);
  if (!result.ok) return { figures, claims: [] };
  const { fit } = result;
  addIntervals(figures, fit, trial);
  addModelTests(figures, fit, table, plan);
  addPredictions(figures, fit, trial, seed);
  const families = armFamilies(fit, LARGEST);
  // With few growers none may live in the largest group.
  if (families.length === 0) return { figures, claims: [] };
  const linked: Families = new Map([[LARGEST, families]]);
  addFamilies(figures, fit, linked, trial, plan);
  return { figures, claims: chances(fit, linked, trial, plan) };
}

type Families = ReadonlyMap<string, readonly ArmFamily[]>;

function planOf(seed: string): AnalysisPlan {
  return {
    level: LEVEL,
    seed,
    permutations: PERMUTATIONS,
    random: RANDOM_TERMS,
    margin: null,
    primary: null,
    reference: "arm0",
    minimum: { boxesPerCell: 5, growersPerCell: 3 },
    factors: new Map(),
    sensitivity: false,
    byGrower: false,
  };
}

const numberOf = (arm: string): number => Number(arm.slice(3));

function truth(trial: SimulatedTrial, band: SimulatedBand, first: string, second: string): number {
  return trueMeanGrowth(trial, numberOf(first), band) - trueMeanGrowth(trial, numberOf(second), band);
}

/** Single intervals in the largest and the smallest climate group; all pairs of the largest at once. */
function addIntervals(figures: Figures, fit: MixedFit, trial: SimulatedTrial): void {
  for (const [name, band] of [
    ["pairLargest", LARGEST],
    ["pairSmallest", SMALLEST],
  ] as const) {
    const pair = difference(fit, band, "arm0", "arm1");
    if (pair.estimable) figures[name] = tHolds(pair, truth(trial, band, "arm0", "arm1"));
  }
  const mean = cellMean(fit, LARGEST, "arm0");
  if (mean.estimable) figures.mean = tHolds(mean, trueMeanGrowth(trial, 0, LARGEST));
  const arms = fit.cells.filter(({ band }) => band === LARGEST).map(({ arm }) => arm);
  const pairs = pairsOf(arms).flatMap(([first, second]) => {
    const found = difference(fit, LARGEST, first, second);
    if (!found.estimable) return [];
    // The interval of Tukey & Kramer holds the truth where the range's tail beyond its distance is large enough.
    const distance = Math.abs(found.estimate - truth(trial, LARGEST, first, second)) / found.se;
    if (distance < NEVER_SIGNIFICANT) return [1];
    return [Number(studentizedRangeUpperTail(Math.SQRT2 * distance, arms.length, found.df) >= 1 - LEVEL)];
  });
  if (pairs.length > 0) figures.tukey = all(pairs);
}

function addFamilies(
  figures: Figures,
  fit: MixedFit,
  linked: Families,
  trial: SimulatedTrial,
  plan: AnalysisPlan,
): void {
  const points = pointsFor(linked, plan);
  const many = comparisonsWithReference(fit, linked, points, plan).filter(({ reason }) => reason === null);
  if (many.length > 0)
    figures.dunnett = all(many.map((one) => holds(one, truth(trial, LARGEST, one.arm, one.reference))));
  const hsu = comparisonsWithBest(fit, linked, points, plan).filter(({ reason }) => reason === null);
  if (hsu.length < 2) return;
  const arms = hsu.map(({ arm }) => arm);
  const best = arms.reduce((top, arm) => (truth(trial, LARGEST, arm, top) > 0 ? arm : top));
  figures.bestExcluded = Number(!hsu.find(({ arm }) => arm === best)!.mayBeBest);
  figures.hsu = all(
    hsu.map((one) => {
      const gaps = arms.filter((arm) => arm !== one.arm).map((arm) => truth(trial, LARGEST, one.arm, arm));
      return holds(one, Math.min(...gaps));
    }),
  );
}

function chances(fit: MixedFit, linked: Families, trial: SimulatedTrial, plan: AnalysisPlan): Claim[] {
  const chanceOf = cellChances(fit, linked, pointsFor(linked, plan), plan, PRIOR_SCALE);
  const claims = Array.from({ length: trial.arms }, (_, arm) => ({
    growth: trueMeanGrowth(trial, arm, LARGEST),
    claimed: chanceOf(LARGEST, `arm${arm}`)?.ofMean,
  })).flatMap(({ growth, claimed }) => (claimed === undefined ? [] : [{ growth, claimed }]));
  const most = Math.max(...claims.map(({ growth }) => growth));
  return claims.map(({ growth, claimed }) => ({ claimed, true: growth === most }));
}

function addPredictions(figures: Figures, fit: MixedFit, trial: SimulatedTrial, seed: string): void {
  const oneSet = predictedDifference(fit, LARGEST, "arm0", "arm1");
  if (!oneSet.estimable) return;
  const normal = normalsFrom(seededSource(`${seed}/new growers`));
  const growers = Array.from({ length: NEW_GROWERS }, () =>
    newGrowerDifference(trial, LARGEST, [0, 1], normal),
  );
  figures.nextSet = mean(growers.map((seen) => tHolds(oneSet, seen.oneSet)));
  const posterior = growerArmPosterior(fit);
  const own = posterior && trueDifference(fit, posterior, LARGEST, "arm0", "arm1", LEVEL);
  if (own?.estimable) figures.trueDifference = mean(growers.map(({ expected }) => holds(own, expected)));
}

/** Rounding may leave an exact bound a hair off. */
const HAIR = 1e-12;

function tHolds(found: MixedEstimate, truth: number): number {
  return found.estimable ? holds(tInterval(found.estimate, found.se, found.df, LEVEL), truth) : 0;
}

function holds(
  { lower, upper }: { readonly lower: number | null; readonly upper: number | null },
  truth: number,
): number {
  return Number(lower! <= truth + HAIR && truth <= upper! + HAIR);
}

function all(held: readonly number[]): number {
  return Number(held.every((one) => one === 1));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
