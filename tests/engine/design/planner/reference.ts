import { readFileSync } from "node:fs";

interface Pairwise {
  mean: number;
  worst: number;
}

/** The shape of cases.json, made by generate.R beside it; R and package versions stand in the file. */
export interface DesignCases {
  noncentralT: { t: number; df: number; ncp: number; upper: number }[];
  noncentralF: { f: number; df1: number; df2: number; lambda: number; upper: number }[];
  tTests: { n: number; difference: number; power: number }[];
  needed: { difference: number; sd: number; n80: number; n90: number };
  anova: { groups: number; n: number; betweenVariance: number; withinVariance: number; power: number };
  equivalence: { margin: number; variance: number; df: number; oneSided: number; power: number }[];
  variances: {
    growerArm: number;
    residual: number;
    designs: { arms: number; sets: number[][]; perGrower: number; plain: Pairwise; withGrowers: Pairwise }[];
  };
  growerArmErrors: { sets: number[][]; growers: number; s: number[]; error: number }[];
  completeSets: { growers: number; sets: number; power: number; error: number }[];
  mixedModel: {
    arms: number;
    sets: number[][];
    perGrower: number;
    difference: number;
    sd: number[];
    result: { power: number; error: number; runs: number };
  };
}

const file = new URL("../../../fixtures/reference/design/cases.json", import.meta.url);

/** Figures from R, frozen; the file prints 15 digits. */
export const cases: DesignCases = JSON.parse(readFileSync(file, "utf8"));

/** Sets in their order, so many to each grower. */
export function dealt(sets: readonly (readonly number[])[], perGrower: number): (readonly number[])[][] {
  return Array.from({ length: Math.ceil(sets.length / perGrower) }, (_, g) =>
    sets.slice(g * perGrower, (g + 1) * perGrower),
  );
}
