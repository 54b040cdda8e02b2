import gammaln from "@stdlib/math-base-special-gammaln";
import { normalUpperTail } from "./distributions";
import { increasingRoot } from "./root";

/*
 * The range of k independent standard normals over an independent s, νs² ~ χ²(ν).
 *
 * Both integrals are trapezoid sums: for an analytic integrand that vanishes at both ends they converge
 * geometrically (Trefethen & Weideman 2014, SIAM Review 56:385–458). Upper tails are sums of positive terms, so that
 * a p-value of 1e-20 keeps its digits.
 */

/** Step of the inner sum over the largest of the k normals; .25 leaves an error below 1e-15. */
const INNER_STEP = 0.25;
/** Beyond this many standard deviations φ is below 1e-17. */
const INNER_REACH = 8.75;
/** Both sums end where a term is below this share of what is there already. */
const NEGLIGIBLE = 1e-17;

interface InnerNode {
  readonly z: number;
  /** Step · φ(z). */
  readonly weight: number;
  /** Φ(z). */
  readonly below: number;
}

const innerNodes: InnerNode[] = [];

/** The i-th node from −INNER_REACH up; made when first asked for. */
function innerNode(i: number): InnerNode {
  const known = innerNodes[i];
  if (known) return known;
  const z = -INNER_REACH + i * INNER_STEP;
  const weight = (INNER_STEP * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
  const node = { z, weight, below: normalUpperTail(-z) };
  innerNodes[i] = node;
  return node;
}

/**
 * P(range of k standard normals > w) = k ∫ φ(z) (Φ(z)^(k−1) − (Φ(z) − Φ(z−w))^(k−1)) dz, z the largest of the k.
 */
function rangeUpperTail(w: number, k: number): number {
  const last = Math.ceil((2 * INNER_REACH + w / 2) / INNER_STEP);
  let sum = 0;
  for (let i = last; i >= 0; i--) {
    const { z, weight, below } = innerNode(i);
    const reached = normalUpperTail(w - z);
    const term = -weight * below ** (k - 1) * Math.expm1((k - 1) * Math.log1p(-reached / below));
    sum += term;
    if (term < sum * NEGLIGIBLE) break;
  }
  return Math.min(1, k * sum);
}

/** Length of a piece of w on which the tail is one series, its coefficients, and up to where there are pieces. */
const PIECE = 0.5;
const COEFFICIENTS = 12;
const PIECES_REACH = 25;

/** By number of means, series by piece; made when first asked for. */
const rangeSeries = new Map<number, Float64Array[]>();

/**
 * ln P(range of k standard normals > w), w ≥ 0. An outer sum asks for it at dozens of w for every p. It varies slowly
 * but for −w²/4, so that on each piece a Chebyshev series of the rest is good to 1e-13, to 1e-11 for 200 means. Beyond the
 * pieces the k(k − 1)/2 pairs add up: that two pairs are so far apart at once is less likely by a factor of e^(−w²/12).
 */
function logRangeUpperTail(w: number, k: number): number {
  if (w >= PIECES_REACH) return Math.log(k * (k - 1) * normalUpperTail(w / Math.SQRT2));
  let pieces = rangeSeries.get(k);
  if (!pieces) {
    pieces = [];
    rangeSeries.set(k, pieces);
  }
  const piece = Math.floor(w / PIECE);
  pieces[piece] ??= chebyshevSeries((at) => {
    const own = PIECE * (piece + (at + 1) / 2);
    return Math.log(rangeUpperTail(own, k)) + (own * own) / 4;
  });
  return chebyshevValue(pieces[piece], 2 * (w / PIECE - piece) - 1) - (w * w) / 4;
}

/** Coefficients of the polynomial that takes `f`'s values at the Chebyshev points of (−1, 1). */
function chebyshevSeries(f: (x: number) => number): Float64Array {
  const angles = Array.from({ length: COEFFICIENTS }, (_, i) => (Math.PI * (i + 0.5)) / COEFFICIENTS);
  const values = angles.map((angle) => f(Math.cos(angle)));
  return Float64Array.from({ length: COEFFICIENTS }, (_, j) => {
    const sum = values.reduce((total, value, i) => total + value * Math.cos(j * angles[i]!), 0);
    return ((j === 0 ? 1 : 2) * sum) / COEFFICIENTS;
  });
}

/** Clenshaw's recurrence (1955, Mathematical Tables 9:118–120). */
function chebyshevValue(series: Float64Array, x: number): number {
  let [next, afterNext] = [0, 0];
  for (let j = series.length - 1; j > 0; j--) {
    const own = series[j]! + 2 * x * next - afterNext;
    afterNext = next;
    next = own;
  }
  return series[0]! + x * next - afterNext;
}

/**
 * P(Q > q) for the studentized range of `groups` ≥ 2 means with `df` > 0 (Infinity for a known variance); 1 for
 * q ≤ 0. The outer sum goes over x = ln s, whose density is ∝ exp(−ν(e^{2x} − 1 − 2x)/2).
 */
export function studentizedRangeUpperTail(q: number, groups: number, df: number): number {
  refuseImpossible(groups, df);
  if (q <= 0) return 1;
  // Above this the spread of s is below 1e-5 and its effect on p below the sum's own rounding.
  if (df > 1e11) return Math.exp(logRangeUpperTail(q, groups));
  const logAtOne = logDensityAtOne(df);
  const term = (x: number): number =>
    Math.exp(logAtOne - (df / 2) * (Math.expm1(2 * x) - 2 * x) + logRangeUpperTail(q * Math.exp(x), groups));
  // With w² ≈ q²e^{2x} the tail behaves as exp(−w²/4), so the largest term is near ν = e^{2x}(ν + q²/2) or right
  // of it; the log density's curvature there is 2ν, which sets the step.
  const start = Math.min(0, -Math.log1p((q * q) / (2 * df)) / 2);
  const step = Math.min(0.1, 0.7 / Math.sqrt(2 * df));
  const upward = sumFrom(term, start, step);
  const downward = sumFrom(term, start - step, -step);
  return Math.min(1, step * (upward + downward));
}

function sumFrom(term: (x: number) => number, start: number, step: number): number {
  let sum = 0;
  for (let x = start; ; x += step) {
    const value = term(x);
    sum += value;
    if (value <= sum * NEGLIGIBLE) return sum;
  }
}

/**
 * ln of the density of ln s at s = 1, 2a^a e^{−a}/Γ(a) with a = ν/2; by Stirling's series where the powers would
 * cancel.
 */
function logDensityAtOne(df: number): number {
  const a = df / 2;
  if (a < 20) return Math.LN2 + a * Math.log(a) - a - gammaln(a);
  const correction = 1 / (12 * a) - 1 / (360 * a ** 3) + 1 / (1260 * a ** 5) - 1 / (1680 * a ** 7);
  return Math.LN2 + Math.log(a / (2 * Math.PI)) / 2 - correction;
}

/** The q with P(Q > q) = `upperTail`, 0 < upperTail < 1; arguments as for {@link studentizedRangeUpperTail}. */
export function studentizedRangeCritical(upperTail: number, groups: number, df: number): number {
  if (!(upperTail > 0 && upperTail < 1)) {
    throw new RangeError(`A critical value needs a probability between 0 and 1; got ${upperTail}.`);
  }
  const target = Math.log(upperTail);
  const excess = (logQ: number): number =>
    target - Math.log(studentizedRangeUpperTail(Math.exp(logQ), groups, df));
  let [low, high] = [1, 2];
  while (excess(high) < 0) [low, high] = [high, high + 1];
  while (excess(low) > 0) [low, high] = [low - 1, low];
  return Math.exp(increasingRoot(excess, low, high));
}

function refuseImpossible(groups: number, df: number): void {
  if (!Number.isInteger(groups) || groups < 2)
    throw new RangeError(`A range needs 2 means or more; got ${groups}.`);
  if (!(df > 0)) throw new RangeError(`Degrees of freedom are above 0; got ${df}.`);
}
