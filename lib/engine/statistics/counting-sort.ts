/** The rows by ascending `key[row]`, a whole number from 0 below `keys`; rows alike keep their order. Linear time. */
export function countingSort(rows: Int32Array, key: Int32Array, keys: number): Int32Array {
  const place = new Int32Array(keys + 1);
  for (let i = 0; i < rows.length; i++) place[key[rows[i]!]! + 1]!++;
  for (let k = 0; k < keys; k++) place[k + 1]! += place[k]!;
  const sorted = new Int32Array(rows.length);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i]!;
    sorted[place[key[row]!]!++] = row;
  }
  return sorted;
}
