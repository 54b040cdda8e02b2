import gammaln from "@stdlib/math-base-special-gammaln";
import { fQuantile, normalQuantile, normalUpperTail, tQuantile } from "../../statistics/distributions";
import { noncentralFUpperTail, noncentralTUpperTail } from "../../statistics/noncentral";

/** Beyond so many growers nobody plans. */
export const MOST_GROWERS = 100_000;

/**
 * Chance that a two-sided t test at `alpha` rejects when the estimate has the standard error √`variance` and the
 * truth is `difference`; both tails count. R: power.t.test(strict = TRUE) is the case of two independent groups.
 */
export function differencePower(difference: number, variance: number, df: number, alpha: number): number {
  if (df < 1) return 0;
  const critical = tQuantile(1 - alpha / 2, df);
  const ncp = difference / Math.sqrt(variance);
  return Math.min(1, noncentralTUpperTail(critical, df, ncp) + noncentralTUpperTail(critical, df, -ncp));
}

/**
 * Chance that the F test of all arms at `alpha` rejects when two arms differ by `difference` and the others lie
 * midway: the least noncentrality such a difference can have, difference²/`variance` with `variance` that of the
 * estimated difference of two arms.
 */
export function anyDifferencePower(
  difference: number,
  variance: number,
  { df1, df2 }: { readonly df1: number; readonly df2: number },
  alpha: number,
): number {
  if (df1 < 1 || df2 < 1) return 0;
  return noncentralFUpperTail(fQuantile(1 - alpha, df1, df2), df1, df2, (difference * difference) / variance);
}

/**
 * Chance that the interval estimate ± t(1 − alpha/2, df)·SE of two arms that are truly equal lies within ±`margin`:
 * two one-sided t tests at alpha/2 each (Schuirmann 1987, J. Pharmacokinet. Biopharm. 15:657–680). Exact:
 * ∫ [2Φ(margin/σ − t u) − 1]₊ f(u) du over u = SE/σ, whose square times df is χ² on df.
 */
export function equivalencePower(margin: number, variance: number, df: number, alpha: number): number {
  if (df < 1) return 0;
  const critical = tQuantile(1 - alpha / 2, df);
  const reach = margin / Math.sqrt(variance);
  const top = reach / critical;
  const spread = 9 / Math.sqrt(2 * df);
  const from = Math.max(0, 1 - spread);
  const to = Math.min(top, 1 + spread + 9 / df);
  if (to <= from) return 0;
  const logConstant = Math.LN2 + (df / 2) * Math.log(df / 2) - gammaln(df / 2);
  return integrate(from, to, (u) => {
    const density = Math.exp(logConstant - (df * u * u) / 2) * u ** (df - 1);
    return density * (1 - 2 * normalUpperTail(reach - critical * u));
  });
}

/** Composite Simpson rule on 400 panels: the integrands here are smooth, and only powers to 1e-8 are asked. */
function integrate(from: number, to: number, f: (x: number) => number): number {
  const panels = 400;
  const h = (to - from) / panels;
  let sum = f(from) + f(to);
  for (let i = 1; i < panels; i++) sum += (i % 2 === 1 ? 4 : 2) * f(from + i * h);
  return (sum * h) / 3;
}

/** The fewest growers, at least 2, from whom on `powerAt` reaches `power`; null: more than `MOST_GROWERS`. */
export function growersNeeded(power: number, powerAt: (growers: number) => number): number | null {
  let high = 2;
  while (powerAt(high) < power) {
    if (high >= MOST_GROWERS) return null;
    high = Math.min(MOST_GROWERS, high * 2);
  }
  let low = Math.max(1, Math.floor(high / 2));
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (powerAt(middle) >= power) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * Boxes per arm for ordered classes, two arms alike in number, proportional odds: 6(z₁₋α⸝₂ + z_power)² /
 * (θ²(1 − Σ p̄³)), θ the log odds ratio and p̄ the shares over both arms (Whitehead 1993, Statistics in Medicine
 * 12:2257–2271). Every box counts as independent.
 * @param shares of one arm; the other's odds of lying in the first j classes are `oddsRatio` times as high, for all j.
 */
export function ordinalBoxesPerArm(
  shares: readonly number[],
  oddsRatio: number,
  power: number,
  alpha: number,
): number {
  const z = normalQuantile(1 - alpha / 2) + normalQuantile(power);
  let below = 0;
  let otherBelow = 0;
  let cubes = 0;
  shares.forEach((share, j) => {
    below += share;
    const last = j === shares.length - 1;
    const otherUpTo = last ? 1 : (oddsRatio * below) / (1 - below + oddsRatio * below);
    cubes += ((share + otherUpTo - otherBelow) / 2) ** 3;
    otherBelow = otherUpTo;
  });
  return (6 * z * z) / (Math.log(oddsRatio) ** 2 * (1 - cubes));
}
