/** A dense symmetric matrix as rows; both triangles are filled. */
export type SymmetricMatrix = readonly (readonly number[])[];

export interface SymmetricEigen {
  /** Eigenvalues, in no particular order. */
  readonly values: readonly number[];
  /** `vectors[j]` is the unit eigenvector of `values[j]`. */
  readonly vectors: readonly (readonly number[])[];
}

export interface GeneralisedQuadraticForm {
  /** x′A⁻x by the Moore–Penrose inverse of A. */
  readonly value: number;
  /** Rank of A. */
  readonly rank: number;
  /** Whether x lies in the range of A; when it doesn't, `value` says nothing about the part outside. */
  readonly inRange: boolean;
}

/** An eigenvalue below this share of the largest counts as zero: far above rounding, far below weak links. */
const RELATIVE_ZERO = 1e-10;
/** An eigenvalue takes two or three steps; many more means the input was not symmetric. */
const MAX_STEPS_PER_VALUE = 60;

/**
 * Eigenvalues and vectors of a small symmetric matrix: Householder's reflections make it tridiagonal, QR steps with
 * Wilkinson's shift diagonal (Golub & Van Loan, Matrix Computations, 4th ed., §8.3). Values are right to rounding of
 * the largest. Cost is cubic in the size. Throws when an entry is not finite.
 */
export function symmetricEigen(matrix: SymmetricMatrix): SymmetricEigen {
  if (!matrix.every((row) => row.every(Number.isFinite)))
    throw new RangeError("The matrix has an entry that is not a finite number.");
  const { diagonal, beside, rows } = tridiagonal(matrix);
  const largest = diagonal.reduce((most, x, i) => Math.max(most, Math.abs(x), Math.abs(beside[i]!)), 0);
  const negligible = Number.EPSILON * largest;
  let steps = MAX_STEPS_PER_VALUE * matrix.length;
  for (let last = matrix.length - 1; last > 0; ) {
    let first = last;
    while (first > 0 && Math.abs(beside[first - 1]!) > negligible) first--;
    if (first === last) {
      last--;
      continue;
    }
    if (steps-- === 0) throw new Error("The eigenvalues did not converge; the matrix is not symmetric.");
    stepDown(diagonal, beside, rows, first, last);
  }
  return { values: Array.from(diagonal), vectors: rows.map((row) => Array.from(row)) };
}

/** A = Z′TZ with T tridiagonal, `diagonal` and `beside` it (one shorter, then 0), and Z's `rows` orthonormal. */
function tridiagonal(matrix: SymmetricMatrix) {
  const n = matrix.length;
  const a = matrix.map((row) => Float64Array.from(row));
  const diagonal = new Float64Array(n);
  const beside = new Float64Array(n);
  const reflectors: (Float64Array | null)[] = [];
  for (let k = 0; k < n; k++) {
    diagonal[k] = a[k]![k]!;
    if (k === n - 1) break;
    const u = reflector(a[k]!, k + 1);
    beside[k] = u ? -Math.sign(a[k]![k + 1]! || 1) * lengthFrom(a[k]!, k + 1) : a[k]![k + 1]!;
    reflectors.push(u);
    if (u) reflectBothSides(a, u, k + 1);
  }
  const rows = a.map((_, i) => Float64Array.from(a, (__, j) => Number(i === j)));
  for (let k = n - 2; k >= 0; k--) {
    const u = reflectors[k];
    if (u) for (let i = k + 1; i < n; i++) reflectRow(rows[i]!, u, k + 1);
  }
  return { diagonal, beside, rows };
}

/** The unit vector u, 0 before `from`, whose reflection I − 2uu′ leaves of x from there only x_from; null if it is so. */
function reflector(x: Float64Array, from: number): Float64Array | null {
  if (lengthFrom(x, from + 1) === 0) return null;
  const u = x.slice();
  u.fill(0, 0, from);
  u[from]! += Math.sign(x[from]! || 1) * lengthFrom(x, from);
  const length = lengthFrom(u, from);
  return u.map((value) => value / length);
}

function lengthFrom(x: Float64Array, from: number): number {
  let squares = 0;
  for (let i = from; i < x.length; i++) squares += x[i]! * x[i]!;
  return Math.sqrt(squares);
}

/** (I − 2uu′) A (I − 2uu′) on rows and columns from `from` on: A − uw′ − wu′ with w = 2Au − 2(u′Au)u. */
function reflectBothSides(a: readonly Float64Array[], u: Float64Array, from: number): void {
  const n = a.length;
  const w = new Float64Array(n);
  let form = 0;
  for (let i = from; i < n; i++) {
    const row = a[i]!;
    let sum = 0;
    for (let j = from; j < n; j++) sum += row[j]! * u[j]!;
    w[i] = 2 * sum;
    form += u[i]! * sum;
  }
  for (let i = from; i < n; i++) w[i]! -= 2 * form * u[i]!;
  for (let i = from; i < n; i++) {
    const row = a[i]!;
    const [ui, wi] = [u[i]!, w[i]!];
    for (let j = from; j < n; j++) row[j]! -= ui * w[j]! + wi * u[j]!;
  }
}

function reflectRow(row: Float64Array, u: Float64Array, from: number): void {
  let sum = 0;
  for (let j = from; j < row.length; j++) sum += row[j]! * u[j]!;
  for (let j = from; j < row.length; j++) row[j]! -= 2 * sum * u[j]!;
}

/** One implicit QR step on the block from `first` to `last`; Z's rows turn with it. */
function stepDown(
  diagonal: Float64Array,
  beside: Float64Array,
  rows: readonly Float64Array[],
  first: number,
  last: number,
): void {
  const half = (diagonal[last - 1]! - diagonal[last]!) / 2;
  const edge = beside[last - 1]!;
  const shift = diagonal[last]! - (edge * edge) / (half + Math.sign(half || 1) * Math.hypot(half, edge));
  let x = diagonal[first]! - shift;
  let bulge = beside[first]!;
  for (let k = first; k < last; k++) {
    const r = Math.hypot(x, bulge);
    const [c, s] = r > 0 ? [x / r, bulge / r] : [1, 0];
    if (k > first) beside[k - 1] = r;
    const [p, q, b] = [diagonal[k]!, diagonal[k + 1]!, beside[k]!];
    diagonal[k] = c * c * p + 2 * c * s * b + s * s * q;
    diagonal[k + 1] = s * s * p - 2 * c * s * b + c * c * q;
    beside[k] = c * s * (q - p) + (c * c - s * s) * b;
    turnRows(rows[k]!, rows[k + 1]!, c, s);
    if (k + 1 === last) break;
    x = beside[k]!;
    bulge = s * beside[k + 1]!;
    beside[k + 1]! *= c;
  }
}

function turnRows(first: Float64Array, second: Float64Array, c: number, s: number): void {
  for (let j = 0; j < first.length; j++) {
    const [x, y] = [first[j]!, second[j]!];
    first[j] = c * x + s * y;
    second[j] = c * y - s * x;
  }
}

/** x′A⁻x for a positive semidefinite A, with A's rank. An empty or zero A has rank 0 and the value 0. */
export function generalisedQuadraticForm(x: readonly number[], a: SymmetricMatrix): GeneralisedQuadraticForm {
  const { values, vectors } = symmetricEigen(a);
  const zero = RELATIVE_ZERO * Math.max(0, ...values);
  let value = 0;
  let rank = 0;
  let outside = 0;
  values.forEach((lambda, j) => {
    const along = dot(vectors[j]!, x);
    if (lambda > zero) {
      value += (along * along) / lambda;
      rank += 1;
    } else {
      outside += along * along;
    }
  });
  return { value, rank, inRange: outside <= 1e-16 * dot(x, x) };
}

/** The Moore–Penrose inverse of a positive semidefinite matrix. */
export function generalisedInverse(a: SymmetricMatrix): number[][] {
  const { values, vectors } = symmetricEigen(a);
  const zero = RELATIVE_ZERO * Math.max(0, ...values);
  const inverse = a.map((row) => row.map(() => 0));
  values.forEach((lambda, k) => {
    if (lambda <= zero) return;
    const vector = vectors[k]!;
    for (let i = 0; i < a.length; i++) {
      for (let j = 0; j < a.length; j++) inverse[i]![j]! += (vector[i]! * vector[j]!) / lambda;
    }
  });
  return inverse;
}

/** x′Ax. */
export function quadraticForm(a: SymmetricMatrix, x: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) {
    let across = 0;
    for (let j = 0; j < x.length; j++) across += a[i]![j]! * x[j]!;
    sum += x[i]! * across;
  }
  return sum;
}

function dot(x: readonly number[], y: readonly number[]): number {
  return x.reduce((sum, xi, i) => sum + xi * y[i]!, 0);
}
