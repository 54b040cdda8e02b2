/** Pearson's χ² of counts against equal expectation; its degrees of freedom are the number of cells less one. */
export function chiSquareOfEqualCells(counts: readonly number[]): number {
  const expected = counts.reduce((sum, count) => sum + count, 0) / counts.length;
  return counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
}
