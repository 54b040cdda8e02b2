import { pairsOf } from "./analysis-figures";
import type { ArmMeans } from "./arm-means";
import { difference } from "./mixed/contrasts";
import { combine, covarianceOf, type FixedCombination } from "./mixed/fixed-combination";
import type { MixedFit } from "./mixed/types";

/** Arms of a band whose differences can all be estimated: what is compared simultaneously. */
export interface ArmFamily {
  readonly arms: readonly string[];
  /**
   * Means less the first arm's, so that they exist even where a mean itself does not. df is the smallest of the
   * pairs' own, as the multivariate t has one for all; Infinity for a single arm.
   */
  readonly means: ArmMeans;
}

/** The band's arms with measured boxes, in linked families; each arm is in one. Order of the fit's cells. */
export function armFamilies(fit: MixedFit, band: string): ArmFamily[] {
  const families: string[][] = [];
  for (const { arm } of fit.cells.filter((cell) => cell.band === band)) {
    const own = families.find(([first]) => difference(fit, band, first!, arm).estimable);
    if (own) own.push(arm);
    else families.push([arm]);
  }
  return families.map((arms) => familyOf(fit, band, arms));
}

/** The families of every band with measured boxes. */
export function familiesByBand(fit: MixedFit): Map<string, ArmFamily[]> {
  const bands = new Set(fit.cells.map(({ band }) => band));
  return new Map([...bands].map((band) => [band, armFamilies(fit, band)]));
}

/** The family restricted to some of its arms. */
export function familyOf(fit: MixedFit, band: string, arms: readonly string[]): ArmFamily {
  const sigma2 = fit.solution.evaluation.residual;
  const lessFirst = arms.map((arm, i) => (i === 0 ? null : differenceOf(fit, band, arm, arms[0]!)));
  const estimates = lessFirst.map((combination) => combination?.estimate ?? 0);
  const covariance = lessFirst.map((a) => lessFirst.map((b) => (a && b ? sigma2 * covarianceOf(a, b) : 0)));
  const dfs = pairsOf(arms).map(([first, second]) => {
    const found = difference(fit, band, first, second);
    return found.estimable && found.df > 0 ? found.df : Number.POSITIVE_INFINITY;
  });
  return { arms, means: { estimates, covariance, df: Math.min(Number.POSITIVE_INFINITY, ...dfs) } };
}

/** Null where it isn't estimable. */
function differenceOf(fit: MixedFit, band: string, first: string, second: string): FixedCombination | null {
  const combination = combine(fit, [
    { band, arm: first, weight: 1 },
    { band, arm: second, weight: -1 },
  ]);
  return "reason" in combination ? null : combination;
}
