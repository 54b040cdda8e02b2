/**
 * Linear algebra modulo a prime, to ask what can be worked out from published sums. Exact, unlike floating point:
 * products of two residues stay below 2⁵³. It could only differ from rational arithmetic where a minor of the
 * 0/1 matrix is a multiple of this prime, the largest below 2²⁶.
 */
const PRIME = 67_108_859;

type Residues = Float64Array;

/** What all sums and differences of some rows can reach. Rows are vectors of equal length over the columns. */
export class RowSpan {
  /** Reduced row echelon form; row i has its leading 1 in column `#pivots[i]`. */
  readonly #reduced: Residues[] = [];
  readonly #pivots: number[] = [];
  /** `#origins[i]`: how reduced row i is made of the given rows. */
  readonly #origins: Residues[] = [];
  readonly #columns: number;

  constructor(rows: readonly (readonly number[])[], columns: number) {
    this.#columns = columns;
    rows.forEach((row, index) => {
      const origin = new Float64Array(rows.length);
      origin[index] = 1;
      this.#insert(Float64Array.from(row), origin);
    });
  }

  /**
   * The places of given rows that make up the vector, or null where it can't be made of them. Where there are
   * several ways, one of them.
   */
  rowsMaking(vector: readonly number[]): number[] | null {
    const rest = Float64Array.from(vector, (x) => residue(x));
    const origin = new Float64Array(this.#origins[0]?.length ?? 0);
    this.#reduce(rest, origin);
    if (rest.some((x) => x !== 0)) return null;
    return [...origin.keys()].filter((row) => origin[row] !== 0);
  }

  /**
   * One vector per column, such that columns can carry a vector of the span by themselves exactly when some
   * combination of their vectors, its weights the vector's entries, vanishes (they span the null space).
   */
  columnChecks(): Residues[] {
    const leading = new Map(this.#pivots.map((column, row) => [column, row]));
    const free = Array.from({ length: this.#columns }, (_, column) => column).filter((c) => !leading.has(c));
    return Array.from({ length: this.#columns }, (_, column) => {
      const row = leading.get(column);
      return Float64Array.from(free, (other) =>
        row === undefined ? Number(other === column) : residue(-this.#reduced[row]![other]!),
      );
    });
  }

  /** Takes the span's part out of the vector; `origin` follows with the rows taken. */
  #reduce(vector: Residues, origin: Residues): void {
    this.#pivots.forEach((column, row) => {
      const factor = vector[column]!;
      if (factor === 0) return;
      subtract(vector, this.#reduced[row]!, factor);
      subtract(origin, this.#origins[row]!, factor);
    });
  }

  #insert(vector: Residues, origin: Residues): void {
    this.#reduce(vector, origin);
    const column = vector.findIndex((x) => x !== 0);
    if (column < 0) return;
    const factor = inverse(vector[column]!);
    scale(vector, factor);
    scale(origin, factor);
    this.#reduced.forEach((row, i) => {
      const above = row[column]!;
      if (above === 0) return;
      subtract(row, vector, above);
      subtract(this.#origins[i]!, origin, above);
    });
    this.#reduced.push(vector);
    this.#origins.push(origin);
    this.#pivots.push(column);
  }
}

/** Weights, not all 0, with which the vectors add up to nothing; null where they are independent. */
export function vanishingWeights(vectors: readonly Residues[]): number[] | null {
  const kept: { vector: Residues; weights: Residues; column: number }[] = [];
  for (const [index, given] of vectors.entries()) {
    const vector = given.slice();
    const weights = new Float64Array(vectors.length);
    weights[index] = 1;
    for (const earlier of kept) {
      const factor = vector[earlier.column]!;
      if (factor === 0) continue;
      subtract(vector, earlier.vector, factor);
      subtract(weights, earlier.weights, factor);
    }
    const column = vector.findIndex((x) => x !== 0);
    if (column < 0) return [...weights];
    const factor = inverse(vector[column]!);
    scale(vector, factor);
    scale(weights, factor);
    kept.push({ vector, weights, column });
  }
  return null;
}

/**
 * One number per vector, so that vectors adding up to nothing have numbers adding up to 0 modulo `modulus`.
 * The converse is only likely: a hit has to be confirmed.
 */
export function fingerprints(vectors: readonly Residues[]): { values: number[]; modulus: number } {
  const values = vectors.map((vector) => {
    let sum = 0;
    for (const x of vector) sum = residue(sum * 40_503 + x);
    return sum;
  });
  return { values, modulus: PRIME };
}

function residue(x: number): number {
  const rest = x % PRIME;
  return rest < 0 ? rest + PRIME : rest;
}

function subtract(from: Residues, what: Residues, factor: number): void {
  for (let i = 0; i < from.length; i++) {
    if (what[i] !== 0) from[i] = residue(from[i]! - factor * what[i]!);
  }
}

function scale(vector: Residues, factor: number): void {
  for (let i = 0; i < vector.length; i++) vector[i] = (vector[i]! * factor) % PRIME;
}

/** Fermat: x^(p − 2). */
function inverse(x: number): number {
  let result = 1;
  let base = x;
  for (let power = PRIME - 2; power > 0; power = Math.floor(power / 2)) {
    if (power % 2 === 1) result = (result * base) % PRIME;
    base = (base * base) % PRIME;
  }
  return result;
}
