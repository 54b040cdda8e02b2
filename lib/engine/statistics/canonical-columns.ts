import { sha256 as streamingSha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "../random/hash";
import { canonicalOrder } from "./canonical-order";
import { canonicalText } from "./canonical-text";
import { packTexts, rankTexts } from "./packed-texts";
import { type PoolTable, rowsOfTable } from "./pool-table";

/** SHA-256 in pieces: the engine's own, or a faster one of whoever calls (Node's `createHash`). */
export interface StreamingSha256 {
  update(bytes: Uint8Array): unknown;
  digest(): Uint8Array;
}

export interface CanonicalTable {
  /** The same rows: labels in code-unit order, rows in the order of their canonical text. */
  readonly table: PoolTable;
  /** Of the canonical text: 64 lower-case hex digits. */
  readonly sha256: string;
  /** Which row of the given table stands at each place. */
  readonly order: Int32Array;
}

/**
 * Puts a table into the one order that equal data always share, and hashes it.
 *
 * The canonical text has one line of canonical JSON (RFC 8785) per box, lines in UTF-16 code-unit order, each
 * ended by a line feed, as UTF-8:
 * `{"arm":…,"available":…,"band":…,"box":…,"cleanTake":…,"grower":…,"outcome":…,"outing":…,"region":…,"status":…}`.
 * What is unknown is null; a lost box's outcome and clean take are null; `available` is left out where it was not
 * stated. A row's place in the input does not matter; how often equal rows occur does.
 * Throws on an outcome that is infinite.
 */
export function canonicalTable(
  table: PoolTable,
  hash: StreamingSha256 = streamingSha256.create(),
): CanonicalTable {
  const sorted = withSortedLabels(table);
  const order = canonicalOrder(sorted);
  for (const bytes of canonicalText(sorted, order)) hash.update(bytes);
  return { table: rowsOfTable(sorted, order), sha256: bytesToHex(hash.digest()), order };
}

function withSortedLabels({ columns, region, ...rest }: PoolTable): PoolTable {
  const grower = sorted(columns.labels.grower, columns.grower);
  const outing = sorted(columns.labels.outing, columns.outing);
  const band = sorted(columns.labels.band, columns.band);
  const arm = sorted(columns.labels.arm, columns.arm);
  const availability = sorted(columns.labels.availability, columns.availability);
  return {
    ...rest,
    columns: {
      ...columns,
      labels: {
        grower: grower.labels,
        outing: outing.labels,
        band: band.labels,
        arm: arm.labels,
        availability: availability.labels,
      },
      grower: grower.index,
      outing: outing.index,
      band: band.index,
      arm: arm.index,
      availability: availability.index,
    },
    region: region && sorted(region.labels, region.index),
  };
}

function sorted(
  labels: readonly string[],
  index: Int32Array,
): { readonly labels: readonly string[]; readonly index: Int32Array } {
  if (labels.every((label, i) => i === 0 || labels[i - 1]! < label)) return { labels, index };
  const rank = rankTexts(packTexts(labels));
  const inCodeUnits = [...labels];
  labels.forEach((label, i) => {
    inCodeUnits[rank[i]!] = label;
  });
  return { labels: inCodeUnits, index: index.map((label) => (label < 0 ? label : rank[label]!)) };
}
