import { chiSquareUpperTail, fUpperTail } from "./distributions";
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
/** Classes of m in (0, 1]. */
const CLASSES = 256;

/** Rows l_a with l_a·l_b = `covariance`[a][b], as short as its rank allows. Throws when it is zero. */
export function covarianceRoot(covariance: SymmetricMatrix): number[][] {
  const { values, vectors } = symmetricEigen(covariance);
  const zero = RELATIVE_ZERO * Math.max(...values);
  const kept = values.map((_, j) => j).filter((j) => values[j]! > Math.max(zero, 0));
  if (kept.length === 0) throw new RangeError("The covariance is zero: there is nothing to compare by.");
  return covariance.map((_, a) => kept.map((j) => Math.sqrt(values[j]!) * vectors[j]![a]!));
}

/**
 * The largest of T_a = l_a·g/s (or of |T_a| when `twoSided`), g standard normal, νs² ~ χ²(ν), the l_a unit vectors
 * (rows of {@link covarianceRoot} divided by their lengths), ν = `df` (may be Infinity).
 *
 * g = r u with the direction u independent of r² ~ χ²(d), d the dimension: with m(u) = max l_a·u ≤ 1,
 * P(largest > q) is the mean over directions of P(F(d, ν) > q²/(d m²)), which is exact along each direction, so that
 * small tails are found as precisely as large ones (spherical-radial integration: Deák 1980, Numerische Mathematik
 * 35:249–260). m is kept in 256 classes
 * by their means, an error far below the Monte Carlo error reported.
 */
export function largestT(
  unitVectors: readonly (readonly number[])[],
  points: NormalPoints,
  { df, twoSided }: { readonly df: number; readonly twoSided: boolean },
): LargestT {
  const { dimension: d, replicates } = points;
  const classes = classesOfLargest(unitVectors, points, twoSided);
  function upperTail(q: number): WithMonteCarloError {
    const perReplicate = new Array<number>(replicates).fill(0);
    for (const { m, shares } of classes) {
      const f = (q / m) ** 2;
      const beyond = df === Infinity ? chiSquareUpperTail(f, d) : fUpperTail(f / d, d, df);
      shares.forEach((share, set) => {
        perReplicate[set]! += share * beyond;
      });
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

interface DirectionClass {
  /** Mean of m(u) in the class. */
  readonly m: number;
  /** Per set of points, the share of its directions in the class. */
  readonly shares: readonly number[];
}

/** The directions with m(u) > 0 by classes of m(u), empty classes left out. */
function classesOfLargest(
  unitVectors: readonly (readonly number[])[],
  { dimension: d, replicates, perReplicate, values }: NormalPoints,
  twoSided: boolean,
): DirectionClass[] {
  const counts = Array.from({ length: CLASSES }, () => new Float64Array(replicates));
  const sums = new Float64Array(CLASSES);
  const rows = Float64Array.from(unitVectors.flat());
  for (let i = 0; i < replicates * perReplicate; i++) {
    const largest = largestAlong(rows, values, i * d, d, twoSided);
    if (largest <= 0) continue;
    let length2 = 0;
    for (let j = i * d; j < (i + 1) * d; j++) length2 += values[j]! * values[j]!;
    const m = largest / Math.sqrt(length2);
    const place = Math.min(CLASSES - 1, Math.floor(m * CLASSES));
    counts[place]![Math.floor(i / perReplicate)]! += 1;
    sums[place]! += m;
  }
  return counts.flatMap((perSet, place) => {
    const count = perSet.reduce((sum, x) => sum + x, 0);
    if (count === 0) return [];
    return [{ m: sums[place]! / count, shares: Array.from(perSet, (x) => x / perReplicate) }];
  });
}

/** The largest l·g over the unit vectors l (one after the other in `rows`), g standing in `values` from `from`. */
function largestAlong(
  rows: Float64Array,
  values: Float64Array,
  from: number,
  d: number,
  twoSided: boolean,
): number {
  let largest = 0;
  for (let row = 0; row < rows.length; row += d) {
    let along = 0;
    for (let j = 0; j < d; j++) along += rows[row + j]! * values[from + j]!;
    if (twoSided && along < 0) along = -along;
    if (along > largest) largest = along;
  }
  return largest;
}
