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
/** Sweeps converge quadratically; a dozen is ample for any size we meet, more means the input was not finite. */
const MAX_SWEEPS = 60;

/**
 * Eigenvalues and vectors of a small symmetric matrix by cyclic Jacobi rotations (Golub & Van Loan, Matrix
 * Computations, 4th ed., §8.5), which keep small eigenvalues of positive semidefinite matrices accurate.
 * Cost is cubic in the size. Throws when an entry is not finite.
 */
export function symmetricEigen(matrix: SymmetricMatrix): SymmetricEigen {
  const size = matrix.length;
  const a = matrix.map((row) => Float64Array.from(row));
  const v = matrix.map((_, i) => Float64Array.from({ length: size }, (_, j) => (i === j ? 1 : 0)));
  const scale = a.reduce((sum, row) => sum + row.reduce((part, x) => part + x * x, 0), 0);
  if (!Number.isFinite(scale)) throw new RangeError("The matrix has an entry that is not a finite number.");
  for (let sweep = 0; offDiagonal(a) > scale * 1e-32; sweep++) {
    if (sweep === MAX_SWEEPS)
      throw new Error("Jacobi rotations did not converge; the matrix is not symmetric.");
    for (let p = 0; p < size - 1; p++) for (let q = p + 1; q < size; q++) rotate(a, v, p, q);
  }
  return { values: a.map((row, i) => row[i]!), vectors: v.map((row) => Array.from(row)) };
}

function offDiagonal(a: readonly Float64Array[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) for (let j = 0; j < i; j++) sum += 2 * a[i]![j]! ** 2;
  return sum;
}

/** Turns the (p, q) plane so that a[p][q] becomes zero; rows of `v` are the eigenvectors being gathered. */
function rotate(a: Float64Array[], v: Float64Array[], p: number, q: number): void {
  const apq = a[p]![q]!;
  if (apq === 0) return;
  const tau = (a[q]![q]! - a[p]![p]!) / (2 * apq);
  const t = tau >= 0 ? 1 / (tau + Math.hypot(1, tau)) : -1 / (-tau + Math.hypot(1, tau));
  const c = 1 / Math.hypot(1, t);
  const s = t * c;
  for (const row of a) {
    const [x, y] = [row[p]!, row[q]!];
    row[p] = c * x - s * y;
    row[q] = s * x + c * y;
  }
  for (const m of [a, v]) {
    const [first, second] = [m[p]!, m[q]!];
    for (let k = 0; k < first.length; k++) {
      const [x, y] = [first[k]!, second[k]!];
      first[k] = c * x - s * y;
      second[k] = s * x + c * y;
    }
  }
  a[p]![q] = 0;
  a[q]![p] = 0;
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

function dot(x: readonly number[], y: readonly number[]): number {
  return x.reduce((sum, xi, i) => sum + xi * y[i]!, 0);
}
