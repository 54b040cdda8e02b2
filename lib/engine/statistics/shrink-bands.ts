import type { ShrinkageOptions } from "./shrinkage";
import { halfNormalPoints } from "./shrinkage";

/** A difference between two recipes in one climate group. */
export interface BandDifference {
  readonly difference: number;
  /** Standard error, > 0. */
  readonly se: number;
}

/**
 * One pair's differences in two climate groups or more, each drawn towards the difference over all groups:
 * d_b ~ N(δ_b, se_b²), δ_b ~ N(δ, τ²), δ flat, τ half-normal of scale `priorScale` and integrated over by the
 * restricted likelihood (Gelman 2006, Bayesian Analysis 1:515–534). `se` is the posterior standard deviation.
 * Groups are taken as independent. In the order given; a single group comes back as it is.
 */
export function shrinkBands(
  differences: readonly BandDifference[],
  { priorScale }: Pick<ShrinkageOptions, "priorScale">,
): BandDifference[] {
  if (differences.length < 2) return [...differences];
  const cases = halfNormalPoints(priorScale).map(({ tau, logPrior }) => {
    const { logLikelihood, shrunken } = shrunkenAt(tau, differences);
    return { log: logPrior + logLikelihood, shrunken };
  });
  const top = Math.max(...cases.map(({ log }) => log));
  const weights = cases.map(({ log }) => Math.exp(log - top));
  const total = weights.reduce((sum, w) => sum + w, 0);
  return differences.map((_, b) => {
    const averaged = (of: (at: BandDifference) => number): number =>
      cases.reduce((sum, { shrunken }, i) => sum + (weights[i]! / total) * of(shrunken[b]!), 0);
    const difference = averaged((at) => at.difference);
    const variance = averaged((at) => at.se ** 2 + (at.difference - difference) ** 2);
    return { difference, se: Math.sqrt(variance) };
  });
}

/** The differences shrunken at a known τ (best linear unbiased predictions), and the restricted log-likelihood of τ. */
export function shrunkenAt(
  tau: number,
  differences: readonly BandDifference[],
): { readonly logLikelihood: number; readonly shrunken: readonly BandDifference[] } {
  const weights = differences.map(({ se }) => 1 / (tau * tau + se * se));
  const total = weights.reduce((sum, w) => sum + w, 0);
  const mean = differences.reduce((sum, { difference }, b) => sum + weights[b]! * difference, 0) / total;
  const logLikelihood = differences.reduce(
    (sum, { difference }, b) => sum + (Math.log(weights[b]!) - weights[b]! * (difference - mean) ** 2) / 2,
    -Math.log(total) / 2,
  );
  const shrunken = differences.map(({ difference, se }, b) => {
    const kept = tau * tau * weights[b]!;
    const variance = se * se * kept + (1 - kept) ** 2 / total;
    return { difference: mean + kept * (difference - mean), se: Math.sqrt(variance) };
  });
  return { logLikelihood, shrunken };
}
