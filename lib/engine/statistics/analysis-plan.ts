import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import type { RandomTerm } from "./mixed/types";

/** What a recipe is made of; a level is the same text wherever it is the same, null where it doesn't apply. */
export interface ArmFactors {
  readonly grain: string | null;
  /** Water to grain. */
  readonly ratio: string | null;
  readonly minutes: string | null;
  /** Cooked moisture the recipe assigns, per cent wet basis. */
  readonly moisturePercent: number | null;
}

/** What is settled about an analysis before it looks at any outcome. */
export interface AnalysisPlan {
  /** Of every interval, 0–1. */
  readonly level: number;
  /** Decides all quasi-random points and permutations. */
  readonly seed: string;
  readonly permutations: number;
  readonly random: readonly RandomTerm[];
  /** Differences smaller than this count as none; null: only superiority is judged. */
  readonly margin: number | null;
  readonly primary: PoolAnalysis["primary"];
  /** The arm others are compared with; null: no such comparison. */
  readonly reference: string | null;
  /** What a cell must hold for a chance to be best to be claimed. */
  readonly minimum: { readonly boxesPerCell: number; readonly growersPerCell: number };
  readonly factors: ReadonlyMap<string, ArmFactors>;
  /** Whether the model is fitted again under other assumptions. */
  readonly sensitivity: boolean;
  /** Whether to say what single growers' boxes show and move. */
  readonly byGrower: boolean;
}
