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
  return distribution(classesOfLargest(unitVectors, points, twoSided), points, df);
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
  return classesOverEachRow(root, points).map((classes) => distribution(classes, points, df));
}

function distribution(
  classes: readonly DirectionClass[],
  { dimension: d, replicates }: NormalPoints,
  df: number,
): LargestT {
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

/** Counts directions by their m(u). */
class DirectionTally {
  readonly #counts: Float64Array[];
  readonly #sums = new Float64Array(CLASSES);
  readonly #perReplicate: number;

  constructor({ replicates, perReplicate }: NormalPoints) {
    this.#counts = Array.from({ length: CLASSES }, () => new Float64Array(replicates));
    this.#perReplicate = perReplicate;
  }

  /** @param m of the point's direction, passed over unless above 0 */
  add(m: number, point: number): void {
    if (m <= 0) return;
    const place = Math.min(CLASSES - 1, Math.floor(m * CLASSES));
    this.#counts[place]![Math.floor(point / this.#perReplicate)]! += 1;
    this.#sums[place]! += m;
  }

  /** Empty classes left out. */
  classes(): DirectionClass[] {
    return this.#counts.flatMap((perSet, place) => {
      const count = perSet.reduce((sum, x) => sum + x, 0);
      if (count === 0) return [];
      return [{ m: this.#sums[place]! / count, shares: Array.from(perSet, (x) => x / this.#perReplicate) }];
    });
  }
}

function classesOfLargest(
  unitVectors: readonly (readonly number[])[],
  points: NormalPoints,
  twoSided: boolean,
): DirectionClass[] {
  const { dimension: d, replicates, perReplicate, values } = points;
  const tally = new DirectionTally(points);
  const rows = Float64Array.from(unitVectors.flat());
  for (let i = 0; i < replicates * perReplicate; i++)
    tally.add(largestAlong(rows, values, i * d, d, twoSided) / lengthOf(values, i * d, d), i);
  return tally.classes();
}

function classesOverEachRow(root: readonly (readonly number[])[], points: NormalPoints): DirectionClass[][] {
  const { dimension: d, replicates, perReplicate, values } = points;
  const k = root.length;
  const tallies = root.map(() => new DirectionTally(points));
  const inverseLengths = inverseDistances(root);
  const rows = Float64Array.from(root.flat());
  const along = new Float64Array(k);
  for (let point = 0; point < replicates * perReplicate; point++) {
    const from = point * d;
    const length = lengthOf(values, from, d);
    for (let j = 0; j < k; j++) {
      let sum = 0;
      for (let t = 0; t < d; t++) sum += rows[j * d + t]! * values[from + t]!;
      along[j] = sum;
    }
    for (let i = 0; i < k; i++) {
      let largest = 0;
      for (let j = 0; j < k; j++) {
        const own = (along[j]! - along[i]!) * inverseLengths[i * k + j]!;
        if (own > largest) largest = own;
      }
      tallies[i]!.add(largest / length, point);
    }
  }
  return tallies.map((tally) => tally.classes());
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

function lengthOf(values: Float64Array, from: number, d: number): number {
  let squares = 0;
  for (let t = from; t < from + d; t++) squares += values[t]! * values[t]!;
  return Math.sqrt(squares);
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
