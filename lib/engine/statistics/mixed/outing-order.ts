import type { PoolColumns } from "../columns";
import { countingSort } from "../counting-sort";

/** The measured boxes, sorted by grower, within a grower by outing, within an outing by arm. */
export interface OutingOrder {
  /** Row numbers in that order. */
  readonly rows: Int32Array;
  /** Place in `rows` where each outing begins, and the number of rows at the end. */
  readonly outingStart: Int32Array;
  /** Outing (of `outingStart`) where each grower begins, and the number of outings at the end. */
  readonly growerStart: Int32Array;
  /** Index into the grower labels, per grower. */
  readonly growerLabel: Int32Array;
}

/**
 * Sorts the rows whose outcome is measured by counting, in time and memory linear in the rows.
 * Throws when an outing's boxes don't agree on its grower, band or availability set.
 */
export function orderByOuting(columns: PoolColumns): OutingOrder {
  const { n, labels } = columns;
  let measured = 0;
  const all = new Int32Array(n);
  for (let row = 0; row < n; row++) {
    if (!Number.isNaN(columns.outcome[row]!)) all[measured++] = row;
  }
  const byArm = countingSort(all.subarray(0, measured), columns.arm, labels.arm.length);
  const byOuting = countingSort(byArm, columns.outing, labels.outing.length);
  const rows = countingSort(byOuting, columns.grower, labels.grower.length);
  const outings = startsWhere(rows, columns.outing);
  const growerStart: number[] = [];
  for (let o = 0; o < outings.length; o++) {
    const before = o === 0 ? -1 : columns.grower[rows[outings[o - 1]!]!]!;
    if (columns.grower[rows[outings[o]!]!] !== before) growerStart.push(o);
  }
  const growerLabel = Int32Array.from(growerStart, (o) => columns.grower[rows[outings[o]!]!]!);
  const order = {
    rows,
    outingStart: Int32Array.from([...outings, measured]),
    growerStart: Int32Array.from([...growerStart, outings.length]),
    growerLabel,
  };
  checkOutings(columns, order);
  return order;
}

function startsWhere(rows: Int32Array, key: Int32Array): Int32Array {
  const starts = new Int32Array(rows.length);
  let count = 0;
  for (let i = 0; i < rows.length; i++) {
    if (i === 0 || key[rows[i]!] !== key[rows[i - 1]!]) starts[count++] = i;
  }
  return starts.subarray(0, count);
}

function checkOutings(columns: PoolColumns, { rows, outingStart }: OutingOrder): void {
  const seen = new Uint8Array(columns.labels.outing.length);
  for (let o = 0; o + 1 < outingStart.length; o++) {
    const first = rows[outingStart[o]!]!;
    const outing = columns.outing[first]!;
    let alike = seen[outing] === 0;
    seen[outing] = 1;
    for (let i = outingStart[o]! + 1; i < outingStart[o + 1]!; i++) {
      const row = rows[i]!;
      alike &&= columns.grower[row] === columns.grower[first];
      alike &&= columns.band[row] === columns.band[first];
      alike &&= columns.availability[row] === columns.availability[first];
    }
    if (!alike) {
      throw new RangeError(
        `Outing "${columns.labels.outing[outing]}" has boxes of two growers, bands or availability sets; give each its own outing.`,
      );
    }
  }
}
