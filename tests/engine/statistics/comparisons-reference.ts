import { readFileSync } from "node:fs";
import type { ArmMeans } from "@/lib/engine/statistics/arm-means";

/** Figures of other implementations, frozen; the scripts that made them stand beside, their versions inside. */
function frozen<T>(name: string): T {
  const file = new URL(`../../fixtures/reference/comparisons/${name}.json`, import.meta.url);
  return JSON.parse(readFileSync(file, "utf8"));
}

type Maybe<T> = T | T[];

interface BinaryData {
  grower: number[];
  outing: number[];
  arm: number[];
  event: number[];
}

/** Coefficients are arm − first arm. */
interface ConditionalFit {
  coefficients: number[];
  covariance: number[][];
  logLikelihood: number;
}

interface CategoricalCases {
  binary: {
    data: BinaryData;
    arms: number;
    pair: { difference: number; logOddsRatio: number; outings: number };
    conditional: ConditionalFit;
  }[];
  single: {
    data: BinaryData;
    arms: number;
    conditional: ConditionalFit & { clustered: number[][]; robustScore: number };
  };
  infert: ConditionalFit & { data: BinaryData; arms: number };
  loss: { data: BinaryData; chiSquare: number; df: number; p: number };
  wine: {
    temp: number[];
    contact: number[];
    rating: number[];
    thresholds: number[];
    coefficients: number[];
    covariance: number[][];
    logLikelihood: number;
  };
  logit: { arm: number[]; band: number[]; growth: number[]; likelihoodRatio: number; df: number };
  interaction: {
    cells: { a: number; b: number }[];
    estimates: number[];
    variances: number[];
    F: number;
    df1: number;
  };
  icc: { ratings: number[][]; values: number[] };
  kappa: { table: number[][]; unweighted: number; quadratic: number };
  crossover: number[];
  bcg: { yi: number[]; vi: number[]; blups: { tau: number; pred: number[]; se: number[] }[] };
}

interface ComparisonCases {
  families: (ArmMeans & {
    k: number;
    dunnett: { critical: number; p: Maybe<number> };
    hsu: { critical: number[]; lower: number[]; upper: number[] };
    chanceBest: number[];
  })[];
  plant: {
    estimates: number[];
    mse: number;
    perArm: number;
    df: number;
    dunnettP: number[];
    tukeyP: number[];
    tukey: [number, number][];
  };
  spending: { fractions: number[]; level: number; boundaries: number[] }[];
}

/** By mvtnorm and multcomp, see comparisons.R. */
export const comparisonCases = frozen<ComparisonCases>("comparisons");

/** By survival, ordinal, metafor, psych and stats, see categorical.R. */
export const categoricalCases = frozen<CategoricalCases>("categorical");

/** By scipy, see studentized-range.py: [q, groups, df, cdf] and [upper tail, groups, df, q]. */
export const studentizedRangeCases = frozen<{
  cdf: [number, number, number, number][];
  critical: [number, number, number, number][];
}>("studentized-range");

/** R writes a vector of one as a number. */
export function asList<T>(value: Maybe<T>): T[] {
  return Array.isArray(value) ? value : [value];
}
