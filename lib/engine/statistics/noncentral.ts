import betainc from "@stdlib/math-base-special-betainc";
import gammaln from "@stdlib/math-base-special-gammaln";
import normalCdf from "@stdlib/stats-base-dists-normal-cdf";

/** Poisson weights further out than this many of their standard deviations are below 1e-20. */
const REACH = 10;

/**
 * P(T > t) for the noncentral t on `df` > 0 degrees of freedom with noncentrality δ = `ncp`.
 *
 * Poisson mixture of incomplete beta functions (Lenth 1989, Algorithm AS 243, Applied Statistics 38:185–189), summed
 * for the upper tail itself:
 * P(T > t) = ½ Σ pⱼ I(1−x; ½df, j+½) + qⱼ I(1−x; ½df, j+1), x = t²/(t²+df), for t ≥ 0, where
 * pⱼ = e^{−λ} λʲ/j! and qⱼ = δ e^{−λ} λʲ/(√2 Γ(j+3/2)), λ = δ²/2. Below 0 by reflection. With t and δ of opposite
 * signs terms cancel: then the error is absolute, about 1e-16.
 */
export function noncentralTUpperTail(t: number, df: number, ncp: number): number {
  requirePositive(df);
  if (t < 0) return 1 - noncentralTUpperTail(-t, df, -ncp);
  const lambda = (ncp * ncp) / 2;
  if (lambda === 0) return t === 0 ? 0.5 : betainc(df / (df + t * t), df / 2, 0.5) / 2;
  if (t === 0) return normalCdf(ncp, 0, 1);
  const half = betaMixture(lambda, df / (df + t * t), df / 2, 0.5, 0);
  const whole = betaMixture(lambda, df / (df + t * t), df / 2, 1, 0.5);
  return inUnit((half + (ncp / Math.SQRT2) * whole) / 2);
}

/**
 * P(F > f) for the noncentral F on `df1`, `df2` > 0 degrees of freedom with noncentrality `lambda` ≥ 0 (the sum of
 * squares of the numerator's means): Σ Poisson(j; λ/2) I(1−x; ½df2, ½df1 + j), x = df1 f/(df1 f + df2)
 * (Johnson, Kotz & Balakrishnan, Continuous Univariate Distributions 2, 2nd ed., ch. 30; from memory). 1 for f ≤ 0.
 */
export function noncentralFUpperTail(f: number, df1: number, df2: number, lambda: number): number {
  requirePositive(df1);
  requirePositive(df2);
  if (!(lambda >= 0)) throw new RangeError(`A noncentrality is 0 or more; got ${lambda}.`);
  if (f <= 0) return 1;
  const beyond = df2 / (df2 + df1 * f);
  if (lambda === 0) return betainc(beyond, df2 / 2, df1 / 2);
  return inUnit(betaMixture(lambda / 2, beyond, df2 / 2, df1 / 2, 0));
}

/**
 * Σⱼ e^{−μ} μʲ/Γ(j + 1 + s) · I(y; b, a + j) over the j whose weights count. I grows with j by
 * y^b (1−y)^(a+j)/((a + j) B(b, a + j)), all positive, so one incomplete beta function starts the sum and the rest follows
 * without loss.
 */
function betaMixture(mu: number, y: number, b: number, a: number, s: number): number {
  const { first, last } = poissonRange(mu);
  const start = a + first;
  let weight = Math.exp(first * Math.log(mu) - mu - gammaln(first + 1 + s));
  let beta = betainc(y, b, start);
  let step = Math.exp(
    b * Math.log(y) + start * Math.log1p(-y) + gammaln(b + start) - gammaln(b) - gammaln(start + 1),
  );
  let sum = 0;
  for (let j = first; j <= last; j++) {
    sum += weight * beta;
    beta += step;
    step *= ((1 - y) * (b + a + j)) / (a + j + 1);
    weight *= mu / (j + 1 + s);
  }
  return sum;
}

/** The counts that carry all weight of a Poisson distribution but 1e-20. */
function poissonRange(mean: number): { first: number; last: number } {
  const reach = REACH * Math.sqrt(mean) + 30;
  return { first: Math.max(0, Math.floor(mean - reach)), last: Math.ceil(mean + reach) };
}

function inUnit(probability: number): number {
  return Math.min(1, Math.max(0, probability));
}

function requirePositive(df: number): void {
  if (!(df > 0)) throw new RangeError(`Degrees of freedom are above 0; got ${df}.`);
}
