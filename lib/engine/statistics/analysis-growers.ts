import type { PoolAnalysis, PoolContrast } from "@/shared/schemas/pool-analysis";
import { finite } from "./analysis-figures";
import type { AnalysisPlan } from "./analysis-plan";
import { growerDifferences } from "./mixed/grower-differences";
import { looTable } from "./mixed/leave-one-out";
import type { MixedFit } from "./mixed/types";

type GrowerView = PoolAnalysis["growers"][number];

/** With more growers than this no single one moves much, and a list of them is no picture. */
const GROWERS_SHOWN = 1000;

/**
 * What single growers' boxes show and move of one pair per band: the reference and the best other arm, or the two
 * best arms. Empty with more than 1,000 growers.
 */
export function growerViews(
  fit: MixedFit,
  cells: PoolAnalysis["cells"],
  contrasts: readonly PoolContrast[],
  { reference }: AnalysisPlan,
): GrowerView[] {
  if (fit.growers > GROWERS_SHOWN) return [];
  const leading = leadingPairs(cells, contrasts, reference);
  const { growers, estimates, shares } = looTable(
    fit,
    leading.map(({ band, first, second }) => [
      { band, arm: first, weight: 1 },
      { band, arm: second, weight: -1 },
    ]),
  );
  return leading.flatMap(({ band, first, second, difference: pooled }, k) => {
    const found = growerDifferences(fit, band, first, second);
    const own = typeof found === "string" ? [] : found;
    return own.map(({ grower, own: difference }): GrowerView => {
      const at = growers.indexOf(grower) * leading.length + k;
      const weight = finite(shares[at]!);
      const shiftWithout = finite(estimates[at]! - pooled!);
      return { grower, band, first, second, difference, weight, shiftWithout };
    });
  });
}

function leadingPairs(
  cells: PoolAnalysis["cells"],
  contrasts: readonly PoolContrast[],
  reference: string | null,
): PoolContrast[] {
  const bands = [...new Set(contrasts.map(({ band }) => band))];
  return bands.flatMap((band) => {
    const ranked = cells
      .filter((cell) => cell.band === band && cell.estimate !== null)
      .sort((a, b) => b.estimate! - a.estimate!)
      .map(({ arm }) => arm);
    const [best, next] = ranked.filter((arm) => arm !== reference);
    const pair = reference !== null && ranked.includes(reference) ? [reference, best] : [best, next];
    return contrasts.filter(
      (one) =>
        one.band === band && one.reason === null && pair.includes(one.first) && pair.includes(one.second),
    );
  });
}
