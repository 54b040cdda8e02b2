/*
 * Cholesky factors of small dense symmetric matrices. A matrix is a Float64Array, row after row, `stride` numbers
 * from one row's begin to the next; only its lower triangle is read or written unless said otherwise. Golub & Van
 * Loan, Matrix Computations, 4th ed., §4.2.
 */

/** A pivot below this share of its diagonal counts as zero: rounding alone leaves about 1e-15. */
const SINGULAR = 1e-11;

/**
 * Replaces the leading n × n matrix by its Cholesky factor L, A = LL′, its diagonal by 1/l_jj (multiplying is several
 * times as fast as dividing), and returns log|A|; NaN when A is not positive definite (the array then holds nothing of
 * use).
 */
export function choleskyInPlace(a: Float64Array, n: number, stride: number): number {
  let logDeterminant = 0;
  for (let j = 0; j < n; j++) {
    const rowJ = j * stride;
    const diagonal = a[rowJ + j]!;
    let pivot = diagonal;
    for (let k = 0; k < j; k++) pivot -= a[rowJ + k]! * a[rowJ + k]!;
    if (!(pivot > SINGULAR * diagonal)) return Number.NaN;
    logDeterminant += Math.log(pivot);
    const scale = 1 / Math.sqrt(pivot);
    a[rowJ + j] = scale;
    for (let i = j + 1; i < n; i++) {
      const rowI = i * stride;
      let sum = a[rowI + j]!;
      for (let k = 0; k < j; k++) sum -= a[rowI + k]! * a[rowJ + k]!;
      a[rowI + j] = sum * scale;
    }
  }
  return logDeterminant;
}

/** Replaces each of `count` rows x (stride n) by the solution of Lz = x, L a factor of `choleskyInPlace`, stride n. */
export function forwardRowsInPlace(l: Float64Array, rows: Float64Array, count: number, n: number): void {
  for (let row = 0; row < count * n; row += n) {
    for (let i = 0, at = 0; i < n; i++, at += n) {
      let sum = rows[row + i]!;
      for (let k = 0; k < i; k++) sum -= l[at + k]! * rows[row + k]!;
      rows[row + i] = sum * l[at + i]!;
    }
  }
}

/** Replaces such a factor L by its inverse. */
export function invertFactorInPlace(l: Float64Array, n: number, stride: number): void {
  for (let i = 0; i < n; i++) {
    const rowI = i * stride;
    const scale = l[rowI + i]!;
    for (let j = 0; j < i; j++) {
      let sum = 0;
      for (let k = j; k < i; k++) sum += l[rowI + k]! * l[k * stride + j]!;
      l[rowI + j] = -sum * scale;
    }
  }
}

/** The inverse of the n × n positive definite matrix, both triangles filled, stride n, with log|A|; null when singular. */
export function inverseOf(
  a: Float64Array,
  n: number,
): { readonly inverse: Float64Array; readonly logDeterminant: number } | null {
  const l = a.slice();
  const logDeterminant = choleskyInPlace(l, n, n);
  if (Number.isNaN(logDeterminant)) return null;
  invertFactorInPlace(l, n, n);
  const inverse = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let k = i; k < n; k++) sum += l[k * n + i]! * l[k * n + j]!;
      inverse[i * n + j] = sum;
      inverse[j * n + i] = sum;
    }
  }
  return { inverse, logDeterminant };
}

/** ABA of two symmetric n × n matrices, both triangles. Zeros are passed over: groups apart leave many. */
export function sandwich(a: Float64Array, b: Float64Array): Float64Array {
  return squareProduct(squareProduct(a, b), a);
}

/** AB for square A and B. */
function squareProduct(a: Float64Array, b: Float64Array): Float64Array {
  const n = Math.round(Math.sqrt(a.length));
  const product = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < n; k++) {
      const factor = a[i * n + k]!;
      if (factor === 0) continue;
      for (let j = 0; j < n; j++) product[i * n + j]! += factor * b[k * n + j]!;
    }
  }
  return product;
}

/**
 * Solves Ax = b for a general n × n matrix (both triangles, stride n) by elimination with row pivoting; null when
 * A is singular. Both arguments are left as they were.
 */
export function solveGeneral(a: Float64Array, b: Float64Array, n: number): Float64Array | null {
  const m = a.slice();
  const x = b.slice();
  const scale = m.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let i = column + 1; i < n; i++) {
      if (Math.abs(m[i * n + column]!) > Math.abs(m[pivot * n + column]!)) pivot = i;
    }
    if (!(Math.abs(m[pivot * n + column]!) > 1e-10 * scale)) return null;
    if (pivot !== column) swapRows(m, x, n, pivot, column);
    for (let i = column + 1; i < n; i++) {
      const factor = m[i * n + column]! / m[column * n + column]!;
      if (factor === 0) continue;
      for (let j = column; j < n; j++) m[i * n + j]! -= factor * m[column * n + j]!;
      x[i]! -= factor * x[column]!;
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let j = i + 1; j < n; j++) x[i]! -= m[i * n + j]! * x[j]!;
    x[i]! /= m[i * n + i]!;
  }
  return x;
}

function swapRows(m: Float64Array, x: Float64Array, n: number, p: number, q: number): void {
  for (let j = 0; j < n; j++) {
    const kept = m[p * n + j]!;
    m[p * n + j] = m[q * n + j]!;
    m[q * n + j] = kept;
  }
  const kept = x[p]!;
  x[p] = x[q]!;
  x[q] = kept;
}
