import { type DirectionClass, DirectionTally } from "./direction-tally";
import { normalUpperTail, tUpperTail } from "./distributions";
import type { NormalPoints } from "./normal-points";
import { overReplicates } from "./normal-points";
import { increasingRoot } from "./root";
import { type SymmetricMatrix, symmetricEigen } from "./symmetric";

export interface WithMonteCarloError {
  readonly value: number;
  /** Standard error of `value`, as the points are finitely many. */
  readonly monteCarloError: number;
}

/** The distribution of the largest of several correlated t statistics. */
export interface LargestT {
  /** P(largest > q), q > 0. */
  upperTail(q: number): WithMonteCarloError;
  /** The q > 0 with P(largest > q) = `upperTail`, 0 < upperTail < 1/2. */
  critical(upperTail: number): WithMonteCarloError;
}

/** Below this share of the largest an eigenvalue is rounding. */
const RELATIVE_ZERO = 1e-10;
/** Relative, on ln q: far below the Monte Carlo error. */
const CRITICAL_TOLERANCE = 1e-9;
/** Rows l_a with l_a·l_b = `covariance`[a][b], as short as its rank allows. Throws when it is zero. */
export function covarianceRoot(covariance: SymmetricMatrix): number[][] {
  const { values, vectors } = symmetricEigen(covariance);
  const zero = RELATIVE_ZERO * Math.max(...values);
  const kept = values.map((_, j) => j).filter((j) => values[j]! > Math.max(zero, 0));
  if (kept.length === 0) throw new RangeError("The covariance is zero: there is nothing to compare by.");
  return covariance.map((_, a) => kept.map((j) => Math.sqrt(values[j]!) * vectors[j]![a]!));
}

/**
 * The dimension points need for rows of this length at least: an even one, as then the tail along a direction is a
 * short sum, but 1 for 1, where it is Student's.
 */
export function pointsDimension(rowLength: number): number {
  return rowLength === 1 ? 1 : rowLength + (rowLength % 2);
}

/**
 * The largest of T_a = l_a·g/s (or of |T_a| when `twoSided`), g standard normal, νs² ~ χ²(ν), the l_a unit vectors
 * (rows of {@link covarianceRoot} divided by their lengths), ν = `df` (may be Infinity). The points may have more
 * dimensions than `pointsDimension` of the rows; the rest are not looked at.
 *
 * g = r u with the direction u independent of r² ~ χ²(d), d the dimension: with m(u) = max l_a·u ≤ 1,
 * P(largest > q) is the mean over directions of P(F(d, ν) > q²/(d m²)), which is exact along each direction, so that
 * small tails are found as precisely as large ones (spherical-radial integration: Deák 1980, Numerische Mathematik
 * 35:249–260).
 */
export function largestT(
  unitVectors: readonly (readonly number[])[],
  points: NormalPoints,
  { df, twoSided }: { readonly df: number; readonly twoSided: boolean },
): LargestT {
  const d = dimensionOf(unitVectors, points);
  const tally = new DirectionTally(points, 1);
  const along = new Float64Array(unitVectors.length);
  forEachDirection(unitVectors, d, points, along, (length, set) => {
    let [largest, smallest] = [0, 0];
    for (const own of along) {
      if (own > largest) largest = own;
      if (own < smallest) smallest = own;
    }
    if (twoSided) largest = Math.max(largest, -smallest);
    tally.add(0, largest / length, set);
    tally.add(0, twoSided ? largest / length : -smallest / length, set);
  });
  return distribution(tally.classesOf(0), { d, df, replicates: points.replicates });
}

/**
 * For every row l_i of `root` in turn the largest of (l_j − l_i)·g/(|l_j − l_i| s) over the other rows, as `largestT`
 * gives it one-sided; all from one look at each point. Throws when two rows are equal.
 */
export function largestOverEachRow(
  root: readonly (readonly number[])[],
  points: NormalPoints,
  df: number,
): LargestT[] {
  const k = root.length;
  const d = dimensionOf(root, points);
  const tally = new DirectionTally(points, k);
  const inverseLengths = inverseDistances(root);
  const along = new Float64Array(k);
  /** The largest at the vector and at its opposite, row by row. */
  const [ahead, behind] = [new Float64Array(k), new Float64Array(k)];
  forEachDirection(root, d, points, along, (length, set) => {
    ahead.fill(0);
    behind.fill(0);
    for (let i = 1; i < k; i++) {
      const own = along[i]!;
      for (let j = 0; j < i; j++) {
        const gap = (along[j]! - own) * inverseLengths[i * k + j]!;
        if (gap > 0) {
          if (gap > ahead[i]!) ahead[i] = gap;
          if (gap > behind[j]!) behind[j] = gap;
        } else {
          if (-gap > ahead[j]!) ahead[j] = -gap;
          if (-gap > behind[i]!) behind[i] = -gap;
        }
      }
    }
    for (let i = 0; i < k; i++) {
      tally.add(i, ahead[i]! / length, set);
      tally.add(i, behind[i]! / length, set);
    }
  });
  return root.map((_, i) => distribution(tally.classesOf(i), { d, df, replicates: points.replicates }));
}

function distribution(
  classes: readonly DirectionClass[],
  { d, df, replicates }: { readonly d: number; readonly df: number; readonly replicates: number },
): LargestT {
  function upperTail(q: number): WithMonteCarloError {
    const perReplicate = new Array<number>(replicates).fill(0);
    for (const { m, shares } of classes) {
      const beyond = radiusUpperTail((q / m) ** 2, d, df);
      for (let set = 0; set < replicates; set++) perReplicate[set]! += shares[set]! * beyond;
    }
    return overReplicates(perReplicate);
  }
  function critical(tail: number): WithMonteCarloError {
    const excess = (logQ: number): number => Math.log(tail) - Math.log(upperTail(Math.exp(logQ)).value);
    let [low, high] = [0.5, 1];
    while (excess(high) < 0) [low, high] = [high, high + 0.5];
    while (excess(low) > 0) [low, high] = [low - 0.5, low];
    const q = Math.exp(increasingRoot(excess, low, high, CRITICAL_TOLERANCE));
    const step = 1e-3 * q;
    const slope = (upperTail(q - step).value - upperTail(q + step).value) / (2 * step);
    return { value: q, monteCarloError: upperTail(q).monteCarloError / slope };
  }
  return { upperTail, critical };
}

/**
 * P(r²/s² > x), r² ~ χ²(d), νs² ~ χ²(ν), d even or 1. With a = ν/2 and t = ν/(ν + x) it is the incomplete beta function
 * I_t(a, d/2) = t^a Σ_{i < d/2} a(a + 1)…(a + i − 1)/i! (1 − t)^i, and for ν = ∞ Poisson's e^{−x/2} Σ (x/2)^i/i!
 * (Abramowitz & Stegun 1964, 26.5.7 with 26.5.2, and 26.4.21); all terms are positive.
 */
function radiusUpperTail(x: number, d: number, df: number): number {
  const a = df / 2;
  const known = df === Infinity;
  if (d === 1) return 2 * (known ? normalUpperTail(Math.sqrt(x)) : tUpperTail(Math.sqrt(x), df));
  const ratio = known ? x / 2 : x / (df + x);
  let term = known ? Math.exp(-x / 2) : Math.exp(-a * Math.log1p(x / df));
  let sum = term;
  for (let i = 1; 2 * i < d; i++) {
    term *= ((known ? 1 : a + i - 1) * ratio) / i;
    sum += term;
  }
  return sum;
}

function dimensionOf(rows: readonly (readonly number[])[], { dimension }: NormalPoints): number {
  const d = pointsDimension(rows[0]!.length);
  if (d > dimension) throw new RangeError(`These rows need points of ${d} dimensions; got ${dimension}.`);
  return d;
}

/**
 * For each stored point, fills `along` with its products with the rows, and calls `look` with the length of its first
 * `d` numbers and the number of its set.
 */
function forEachDirection(
  rows: readonly (readonly number[])[],
  d: number,
  { dimension, pairsPerReplicate, values }: NormalPoints,
  along: Float64Array,
  look: (length: number, set: number) => void,
): void {
  const width = rows[0]!.length;
  const flat = Float64Array.from(rows.flat());
  for (let point = 0, from = 0; from < values.length; point++, from += dimension) {
    let squares = 0;
    for (let t = from; t < from + d; t++) squares += values[t]! * values[t]!;
    for (let row = 0; row < along.length; row++) {
      let sum = 0;
      for (let t = 0; t < width; t++) sum += flat[row * width + t]! * values[from + t]!;
      along[row] = sum;
    }
    look(Math.sqrt(squares), Math.floor(point / pairsPerReplicate));
  }
}

/** 1/|l_j − l_i| row by row, 0 for a row and itself. */
function inverseDistances(root: readonly (readonly number[])[]): Float64Array {
  return Float64Array.from(
    root.flatMap((own, i) =>
      root.map((other, j) => {
        if (i === j) return 0;
        const distance = Math.hypot(...other.map((x, t) => x - own[t]!));
        if (!(distance > 0))
          throw new RangeError("Two arms' difference has no variance; leave one of them out.");
        return 1 / distance;
      }),
    ),
  );
}
