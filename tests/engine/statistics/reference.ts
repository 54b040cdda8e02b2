import { readFileSync } from "node:fs";
import type { PoolRow } from "@/shared/schemas/pool";

/** The shape of cases.json, made by generate.R beside it; R and package versions stand in the file. */
export interface ReferenceCases {
  trials: {
    rows: PoolRow[];
    cells: {
      band: string;
      arm: string;
      boxes: number;
      growers: number;
      outings: number;
      estimate: number;
      se?: number;
      df?: number;
      lower?: number;
      upper?: number;
    }[];
    rank: ReferenceRank;
    hotelling: { statistic: number; df1: number; df2: number; p: number; growers: number };
  }[];
  friedman: { times: number[][]; chiSquare: number; df: number; p: number };
  vanElteren: { rows: PoolRow[]; rank: ReferenceRank };
  wilson: { count: number; n: number; lower: number; upper: number }[];
  tails: { name: string; x: number; df1?: number; df2?: number; p: number }[];
  quantiles: { name: string; x: number; df1?: number; df2?: number; p: number }[];
  eigen: { matrix: number[][]; values: number[] };
}

interface ReferenceRank {
  chiSquare: number;
  df: number;
  p: number;
  boxes: number;
  outings: number;
}

const file = new URL("../../fixtures/reference/statistics/cases.json", import.meta.url);

/** Figures from R, frozen; the file prints 15 digits. */
export const reference: ReferenceCases = JSON.parse(readFileSync(file, "utf8"));

/** |value − expected| ≤ tolerance · |expected|. */
export function relativelyClose(value: number | null, expected: number, tolerance: number): boolean {
  return value !== null && Math.abs(value - expected) <= tolerance * Math.abs(expected);
}
