import { readFileSync } from "node:fs";
import type { PoolColumns } from "@/lib/engine/statistics/columns";
import { fitMixedModel } from "@/lib/engine/statistics/mixed/fit-mixed-model";
import type { MixedFit, MixedOptions, RandomTerm } from "@/lib/engine/statistics/mixed/types";

/** Estimate, standard error and Satterthwaite df as lmerTest gives them. */
export interface ReferenceEstimate {
  readonly estimate: number;
  readonly se: number;
  readonly df: number;
}

export interface ReferenceData {
  readonly grower: number[];
  readonly outing: number[];
  readonly band: number[];
  readonly arm: number[];
  readonly set: number[];
  readonly y: (number | null)[];
}

/** The shape of cases.json, made by generate.R beside it; R and package versions stand in the file. */
export interface MixedReference {
  readonly cases: {
    readonly name: string;
    readonly random: RandomTerm | RandomTerm[];
    readonly data: ReferenceData;
    readonly criterion: number;
    readonly variance: Record<RandomTerm, number | null> & { residual: number };
    readonly means: (ReferenceEstimate & { band: number; arm: number })[];
    readonly pairs: (ReferenceEstimate & { band: number; first: number; second: number })[];
    readonly joint: { f: number; df1: number; df2: number; p: number };
  }[];
  readonly fixed: {
    readonly name: string;
    readonly data: ReferenceData;
    readonly growerArm: number;
    readonly residual: number;
    readonly pairs: (ReferenceEstimate & { first: number; second: number })[];
  }[];
  readonly byGrower: {
    readonly name: string;
    readonly data: ReferenceData;
    /** Arms compared with the first of band 1; per grower their differences from it without that grower. */
    readonly others: number[];
    readonly without: (number | null)[][];
    readonly growers: number[];
    readonly differences: {
      readonly grower: number;
      readonly own: number;
      readonly ownSe: number;
      readonly predicted: number;
      readonly predictedSe: number;
    }[];
  }[];
  readonly prediction: {
    readonly name: string;
    readonly data: ReferenceData;
    readonly first: number;
    readonly second: number;
    /** A new grower's one set. */
    readonly oneSet: ReferenceEstimate;
    /** 95 % for a new grower's true difference. */
    readonly lower: number;
    readonly upper: number;
  }[];
  readonly npk: {
    readonly block: number[];
    readonly cell: string[];
    readonly yield: number[];
    readonly criterion: number;
    readonly variance: [number, number];
    readonly means: (ReferenceEstimate & { cell: string })[];
  };
  readonly dyestuff: { readonly batch: number[]; readonly y: number[] };
  readonly dyestuff2: { readonly batch: number[]; readonly y: number[] };
  readonly pastes: { readonly batch: string[]; readonly sample: string[]; readonly y: number[] };
}

const file = new URL("../../../fixtures/reference/mixed/cases.json", import.meta.url);

/** Figures from R, frozen; the file prints 15 digits. */
export const reference: MixedReference = JSON.parse(readFileSync(file, "utf8"));

/** The fit of data that allow one. */
export function fitted(columns: PoolColumns, options?: MixedOptions): MixedFit {
  const result = fitMixedModel(columns, options);
  if (!result.ok) throw new Error(`No model fits: ${result.reason}.`);
  return result.fit;
}
