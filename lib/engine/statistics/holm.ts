/**
 * Holm's step-down adjusted p-values (Holm 1979, Scandinavian Journal of Statistics 6:65–70), in the order given:
 * the i-th smallest of m becomes the largest (m − j + 1) p_(j) over j ≤ i, at most 1.
 */
export function holm(pValues: readonly number[]): number[] {
  const m = pValues.length;
  const order = pValues.map((_, i) => i).sort((i, j) => pValues[i]! - pValues[j]!);
  const adjusted = new Array<number>(m);
  let largest = 0;
  order.forEach((i, place) => {
    largest = Math.max(largest, Math.min(1, (m - place) * pValues[i]!));
    adjusted[i] = largest;
  });
  return adjusted;
}
