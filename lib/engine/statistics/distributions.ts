import betainc from "@stdlib/math-base-special-betainc";
import gammainc from "@stdlib/math-base-special-gammainc";
import fQuantileOf from "@stdlib/stats-base-dists-f-quantile";
import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import normalQuantileOf from "@stdlib/stats-base-dists-normal-quantile";
import tQuantileOf from "@stdlib/stats-base-dists-t-quantile";

/*
 * Upper tails come from the regularised incomplete beta and gamma functions themselves, so that a p-value of
 * 1e-30 keeps its digits; 1 − cdf would give 0.
 */

/** P(T > t) for Student's t on `df` > 0 degrees of freedom. */
export function tUpperTail(t: number, df: number): number {
  const x = df / (df + t * t);
  const beyond = betainc(x, df / 2, 0.5) / 2;
  return t >= 0 ? beyond : 1 - beyond;
}

/** From so many degrees of freedom on, the series below is right to 1e-14 for 1e-6 < p < 1 − 1e-6. */
const MANY_DF = 3000;

/**
 * The t with P(T ≤ t) = p, 0 < p < 1, on `df` > 0 degrees of freedom. The library searches for it, which takes its time;
 * with many degrees of freedom it is Fisher & Cornish's series about the normal quantile (Abramowitz & Stegun 1964,
 * 26.7.5).
 */
export function tQuantile(p: number, df: number): number {
  if (df < MANY_DF) return tQuantileOf(p, df);
  const z = normalQuantile(p);
  const z2 = z * z;
  const terms = [
    (z2 + 1) / 4,
    ((5 * z2 + 16) * z2 + 3) / 96,
    (((3 * z2 + 19) * z2 + 17) * z2 - 15) / 384,
    ((((79 * z2 + 776) * z2 + 1482) * z2 - 1920) * z2 - 945) / 92160,
  ];
  return z * (1 + terms.reduceRight((sum, term) => (sum + term) / df, 0));
}

/** P(F > f) on `df1` and `df2` > 0 degrees of freedom; 1 for f ≤ 0. */
export function fUpperTail(f: number, df1: number, df2: number): number {
  if (f <= 0) return 1;
  return betainc(df2 / (df2 + df1 * f), df2 / 2, df1 / 2);
}

/** The f with P(F ≤ f) = p, 0 < p < 1, on `df1` and `df2` > 0 degrees of freedom. */
export function fQuantile(p: number, df1: number, df2: number): number {
  return fQuantileOf(p, df1, df2);
}

/** P(X > x) for χ² on `df` > 0 degrees of freedom; 1 for x ≤ 0. */
export function chiSquareUpperTail(x: number, df: number): number {
  return x <= 0 ? 1 : gammainc(x / 2, df / 2, true, true);
}

/** P(Z > z) for the standard normal. */
export function normalUpperTail(z: number): number {
  return normalCdf(-z, 0, 1);
}

/**
 * The z with P(Z ≤ z) = p, 0 < p < 1. The library's quantile goes through erfinv(2p − 1), which loses digits below
 * p ≈ 1e-6 and ends in −∞ at 1e-17; there Newton steps on ln Φ(z) = ln p start from the tail's asymptote.
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`A quantile needs a probability between 0 and 1; got ${p}.`);
  if (p > 0.5) return -normalQuantile(1 - p);
  if (p > 1e-4) return normalQuantileOf(p, 0, 1);
  const twiceLog = -2 * Math.log(p);
  let z = -Math.sqrt(twiceLog - Math.log(twiceLog * 2 * Math.PI));
  for (let step = 0; step < 6; step++) {
    const below = normalCdf(z, 0, 1);
    const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
    z -= (Math.log(below / p) * below) / density;
  }
  return z;
}
