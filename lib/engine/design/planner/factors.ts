import { factorialCells, type PlannerArms } from "@/shared/schemas/planner";
import type { PlannerFactor } from "@/shared/schemas/planner-result";

/** Two levels of a factor as weights over arms: 1/m for the m arms of the one, −1/n for the n of the other. */
export interface FactorContrast {
  readonly factor: PlannerFactor;
  readonly weights: readonly number[];
}

const FACTORS: readonly PlannerFactor[] = ["grain", "waterRatio", "minutes"];

/**
 * The comparisons of two levels, averaged over the other factors. None for a list of recipes, nor for a factorial with
 * combinations left out, where such averages would mix factors.
 */
export function factorContrasts(arms: PlannerArms): readonly FactorContrast[] {
  if (arms.kind === "list" || (arms.without ?? []).length > 0) return [];
  const cells = factorialCells(arms);
  return FACTORS.flatMap((factor) => {
    const levels = [...new Set(cells.map((cell) => cell[factor]))];
    return levels.flatMap((one, i) =>
      levels.slice(0, i).map((other) => {
        const size = cells.length / levels.length;
        const weights = cells.map((cell) => {
          if (cell[factor] === one) return 1 / size;
          return cell[factor] === other ? -1 / size : 0;
        });
        return { factor, weights };
      }),
    );
  });
}
