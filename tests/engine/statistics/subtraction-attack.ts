/**
 * An attacker with floating-point elimination, written apart from the engine's modular one: can a vector be made
 * of the rows by adding and subtracting?
 */
export function canMake(rows: readonly (readonly number[])[], vector: readonly number[]): boolean {
  return rankOf([...rows, vector]) === rankOf(rows);
}

/** Rank by Gaussian elimination with complete pivoting; meant for small 0/1 matrices. */
export function rankOf(rows: readonly (readonly number[])[]): number {
  const a = rows.map((row) => [...row]);
  let rank = 0;
  for (; rank < a.length; rank++) {
    let best = { row: -1, column: -1, size: 1e-9 };
    for (let row = rank; row < a.length; row++) {
      a[row]!.forEach((x, column) => {
        if (Math.abs(x) > best.size) best = { row, column, size: Math.abs(x) };
      });
    }
    if (best.row < 0) break;
    [a[rank], a[best.row]] = [a[best.row]!, a[rank]!];
    const pivot = a[rank]!;
    for (let row = rank + 1; row < a.length; row++) {
      const factor = a[row]![best.column]! / pivot[best.column]!;
      a[row] = a[row]!.map((x, column) => x - factor * pivot[column]!);
    }
  }
  return rank;
}

/** All non-empty subsets of 0 … size − 1; for small sizes. */
export function* subsets(size: number): Generator<number[]> {
  for (let mask = 1; mask < 2 ** size; mask++) {
    yield Array.from({ length: size }, (_, i) => i).filter((i) => (mask >> i) & 1);
  }
}

export function indicatorOf(members: readonly number[], length: number): number[] {
  return Array.from({ length }, (_, i) => (members.includes(i) ? 1 : 0));
}
