import { jsonTexts, rankTexts } from "./packed-texts";
import type { PoolTable } from "./pool-table";

/**
 * Rows in the order of their canonical text (see `canonicalTable`), as row numbers; the table's labels stand in
 * code-unit order. Members of the text stand in a
 * fixed order and each ends the same way, so that lines compare member by member: arm, available, band, box, clean
 * take and grower by counting sorts from the last to the first; outcome, outing, region and status where those
 * leave a tie.
 */
export function canonicalOrder(table: PoolTable): Int32Array {
  const { columns, box, cleanTake } = table;
  const { labels, n } = columns;
  const keys: Key[] = [labelKey(labels.grower, columns.grower)];
  const addUnlessAlike = (own: readonly string[], index: Int32Array, asText?: (label: string) => string) => {
    if (own.length > 1) keys.push(labelKey(own, index, asText));
  };
  if (cleanTake) keys.push({ rank: CLEAN_TAKE_RANK, index: cleanTake.map((known) => known + 1) });
  if (box) keys.push({ rank: rankTexts(jsonTexts(box.texts)), index: box.index });
  addUnlessAlike(labels.band, columns.band);
  addUnlessAlike(labels.availability, columns.availability, notStatedLast);
  addUnlessAlike(labels.arm, columns.arm);
  let order = new Int32Array(n);
  for (let row = 0; row < n; row++) order[row] = row;
  let spare = new Int32Array(n);
  for (const key of keys) {
    countingSort(key, order, spare);
    [order, spare] = [spare, order];
  }
  breakTies(table, keys, order);
  return order;
}

/** A row's rank is `rank[index[row]]`; a row without an index (−1) comes last, as null comes after a quote. */
interface Key {
  readonly rank: Int32Array;
  readonly index: Int32Array | Int8Array;
}

/** Unknown, false, true by the order of the words null, false, true. */
const CLEAN_TAKE_RANK = Int32Array.of(1, 0, 2);

/** Characters that sort before the quote ending a JSON string, or are escaped in one. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: those are the ones JSON escapes
const SORTS_OTHERWISE_IN_JSON = /[\u0000-"\\]/;

/** Labels come in code-unit order, which is that of their JSON texts but for a few characters. */
function labelKey(
  labels: readonly string[],
  index: Int32Array,
  asText: (label: string) => string = JSON.stringify,
): Key {
  const rank = Int32Array.from(labels.keys());
  if (asText !== JSON.stringify || labels.some((label) => SORTS_OTHERWISE_IN_JSON.test(label))) {
    const texts = labels.map((label) => asText(label));
    const order = [...texts.keys()].sort((a, b) => (texts[a]! < texts[b]! ? -1 : 1));
    order.forEach((label, place) => {
      rank[label] = place;
    });
  }
  return { rank, index };
}

/** The member is left out where availability was not stated, and the next begins with a later letter. */
function notStatedLast(label: string): string {
  return label === "" ? "~" : JSON.stringify(label);
}

/** Stable: rows of equal rank keep their order. */
function countingSort({ rank, index }: Key, order: Int32Array, sorted: Int32Array): void {
  const next = new Int32Array(rank.length + 2);
  const none = rank.length;
  for (let i = 0; i < order.length; i++) {
    const own = index[order[i]!]!;
    next[(own < 0 ? none : rank[own]!) + 1]!++;
  }
  for (let r = 1; r < next.length; r++) next[r]! += next[r - 1]!;
  for (let i = 0; i < order.length; i++) {
    const own = index[order[i]!]!;
    sorted[next[own < 0 ? none : rank[own]!]!++] = order[i]!;
  }
}

function breakTies({ columns, region }: PoolTable, keys: readonly Key[], order: Int32Array): void {
  const { outcome, lost } = columns;
  const last: Key[] = [labelKey(columns.labels.outing, columns.outing)];
  if (region) last.push(labelKey(region.labels, region.index));
  const byRest = (a: number, b: number): number => {
    if (!sameOutcome(outcome[a]!, outcome[b]!))
      return outcomeText(outcome[a]!) < outcomeText(outcome[b]!) ? -1 : 1;
    for (const key of last) {
      const difference = rankOf(key, a) - rankOf(key, b);
      if (difference !== 0) return difference;
    }
    return lost[a]! - lost[b]!;
  };
  const tied = (a: number, b: number): boolean => {
    for (const key of keys) if (rankOf(key, a) !== rankOf(key, b)) return false;
    return true;
  };
  for (let from = 0; from < order.length; ) {
    let to = from + 1;
    while (to < order.length && tied(order[from]!, order[to]!)) to++;
    if (to - from > FEW) order.subarray(from, to).sort(byRest);
    else insertInOrder(order, from, to, byRest);
    from = to;
  }
}

/** Up to this many rows are put in order by insertion: ties are many and short. */
const FEW = 12;

function insertInOrder(
  order: Int32Array,
  from: number,
  to: number,
  compare: (a: number, b: number) => number,
): void {
  for (let i = from + 1; i < to; i++) {
    const row = order[i]!;
    let at = i;
    for (; at > from && compare(order[at - 1]!, row) > 0; at--) order[at] = order[at - 1]!;
    order[at] = row;
  }
}

function rankOf({ rank, index }: Key, row: number): number {
  return index[row]! < 0 ? rank.length : rank[index[row]!]!;
}

function sameOutcome(a: number, b: number): boolean {
  return a === b || (Number.isNaN(a) && Number.isNaN(b));
}

/** The outcome as canonical JSON writes it. */
export function outcomeText(outcome: number): string {
  return Number.isNaN(outcome) ? "null" : String(outcome);
}
