import { solveGeneral } from "./dense";

export interface SlopedValue {
  readonly value: number;
  readonly slope: readonly number[];
}

export interface Minimum<T extends SlopedValue> {
  readonly x: readonly number[];
  readonly at: T;
  /** The last approximation of the matrix of second derivatives. */
  readonly curvature: readonly (readonly number[])[];
  readonly evaluations: number;
  readonly converged: boolean;
}

export interface Start {
  readonly x: readonly number[];
  /** Second derivatives there, as far as known; positive definite. */
  readonly curvature: readonly (readonly number[])[];
}

const MAX_STEPS = 100;
/** How often a step is cut to a third. */
const MAX_TRIALS = 14;
/** The longest step along one coordinate, and the largest value of one; both for logarithmic scales. */
const MAX_STRIDE = 3;
export const UPPER = 14;

/**
 * Minimises a smooth function of a few numbers ≥ 0 whose slope is known: quasi-Newton steps with the curvature
 * updated by Broyden, Fletcher, Goldfarb and Shanno's formula, projected on the bounds, with backtracking (Nocedal &
 * Wright, Numerical Optimization, 2nd ed., ch. 6 and §16.7). A coordinate at 0 whose slope is positive stays
 * there, and so does one at `UPPER` whose slope is negative. `f` returns null where it has no value; it must have one at the start.
 */
export function minimise<T extends SlopedValue>(
  f: (x: readonly number[]) => T | null,
  start: Start,
  tolerance: number,
): Minimum<T> {
  let x = start.x;
  const first = f(x);
  if (first === null) throw new RangeError("The function to be minimised has no value at the start.");
  let at = first;
  let evaluations = 1;
  let curvature = start.curvature;
  for (let step = 0; step < MAX_STEPS; step++) {
    const direction = descent(x, at.slope, curvature);
    const decrease = -dot(direction, at.slope) / 2;
    if (decrease < tolerance) return { x, at, curvature, evaluations, converged: true };
    const longest = Math.max(...direction.map(Math.abs));
    let length = Math.min(1, MAX_STRIDE / longest);
    let next: { x: number[]; at: T } | null = null;
    for (let trial = 0; trial < MAX_TRIALS && next === null; trial++, length /= 3) {
      const tried = x.map((value, k) => Math.min(UPPER, Math.max(0, value + length * direction[k]!)));
      const there = f(tried);
      evaluations += 1;
      if (there !== null && isLower(x, at, tried, there)) next = { x: tried, at: there };
    }
    // No lower value along a descent direction: what is left is rounding, or the curvature is wrong.
    if (next === null) return { x, at, curvature, evaluations, converged: decrease < 1e-8 };
    curvature = updated(curvature, x, at.slope, next.x, next.at.slope);
    ({ x, at } = next);
  }
  return { x, at, curvature, evaluations, converged: false };
}

/** The quasi-Newton step among coordinates that are free to move. */
function descent(
  x: readonly number[],
  slope: readonly number[],
  curvature: readonly (readonly number[])[],
): number[] {
  const free = [...x.keys()].filter(
    (k) => !(x[k]! <= 0 && slope[k]! > 0) && !(x[k]! >= UPPER && slope[k]! < 0),
  );
  const direction = x.map(() => 0);
  const matrix = Float64Array.from(free.flatMap((k) => free.map((l) => curvature[k]![l]!)));
  const step = solveGeneral(
    matrix,
    Float64Array.from(free, (k) => -slope[k]!),
    free.length,
  );
  free.forEach((k, i) => {
    direction[k] = step?.[i] ?? 0;
  });
  if (dot(direction, slope) < 0) return direction;
  for (const k of free) direction[k] = -slope[k]! / Math.max(Math.abs(curvature[k]![k]!), 1e-300);
  return direction;
}

/** Armijo's condition; near the minimum, where differences drown in rounding, a lower slope counts too. */
function isLower<T extends SlopedValue>(x: readonly number[], at: T, tried: readonly number[], there: T) {
  const expected = dot(
    at.slope,
    tried.map((value, k) => value - x[k]!),
  );
  if (there.value <= at.value + 1e-4 * expected) return true;
  const rounding = 1e-13 * Math.abs(at.value) + 1e-13;
  return there.value <= at.value + rounding && Math.abs(expected) < 1e3 * rounding;
}

/** The update, left out where the slope did not grow along the step (it would lose positive definiteness). */
function updated(
  curvature: readonly (readonly number[])[],
  x: readonly number[],
  slope: readonly number[],
  nextX: readonly number[],
  nextSlope: readonly number[],
): readonly (readonly number[])[] {
  const s = nextX.map((value, k) => value - x[k]!);
  const y = nextSlope.map((value, k) => value - slope[k]!);
  const along = dot(s, y);
  const bs = curvature.map((row) => dot(row, s));
  const form = dot(s, bs);
  if (!(along > 1e-10 * form)) return curvature;
  return curvature.map((row, k) =>
    row.map((value, l) => value - (bs[k]! * bs[l]!) / form + (y[k]! * y[l]!) / along),
  );
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, k) => sum + value * b[k]!, 0);
}
