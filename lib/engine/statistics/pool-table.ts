import type { PoolRow } from "@/shared/schemas/pool";
import type { PoolColumns } from "./columns";
import { type PackedTexts, packTexts } from "./packed-texts";

/** A whole table of boxes as columns: what the statistics read, and what else names a row. */
export interface PoolTable {
  readonly columns: PoolColumns;
  /** Region by row, −1 where there is none; null where no row has one. */
  readonly region: { readonly labels: readonly string[]; readonly index: Int32Array } | null;
  /** Which of `texts` is the row's box code, −1 where it has none; null where no row has one. */
  readonly box: { readonly texts: PackedTexts; readonly index: Int32Array } | null;
  /** 1 clean take, 0 none, −1 unknown or lost, by row; null where no row knows. */
  readonly cleanTake: Int8Array | null;
}

/**
 * Rows as a table. Labels stand in code-unit order. Rows say nothing of availability, so all outings share the
 * set "" (not stated).
 */
export function poolTable(rows: readonly PoolRow[]): PoolTable {
  const graded = (row: PoolRow): boolean => row.status === "graded";
  const grower = indexed(rows.map((row) => row.grower));
  const outing = indexed(rows.map((row) => row.outing));
  const band = indexed(rows.map((row) => row.band));
  const arm = indexed(rows.map((row) => row.arm));
  return {
    columns: {
      n: rows.length,
      labels: {
        grower: grower.labels,
        outing: outing.labels,
        band: band.labels,
        arm: arm.labels,
        availability: [""],
      },
      grower: grower.index,
      outing: outing.index,
      band: band.index,
      arm: arm.index,
      outcome: Float64Array.from(rows, (row) => (graded(row) ? (row.outcome ?? Number.NaN) : Number.NaN)),
      lost: Uint8Array.from(rows, (row) => (graded(row) ? 0 : 1)),
      availability: new Int32Array(rows.length),
    },
    region: optionalLabels(rows.map((row) => row.region)),
    box: optionalTexts(rows.map((row) => row.box)),
    cleanTake: optionalFlags(rows.map((row) => (graded(row) ? row.cleanTake : null))),
  };
}

/** The table of some of its rows, in the order given; labels and box texts stay as they are. */
export function rowsOfTable({ columns, region, box, cleanTake }: PoolTable, rows: Int32Array): PoolTable {
  const indices = (values: Int32Array): Int32Array => gather(values, rows, new Int32Array(rows.length));
  return {
    columns: {
      ...columns,
      n: rows.length,
      grower: indices(columns.grower),
      outing: indices(columns.outing),
      band: indices(columns.band),
      arm: indices(columns.arm),
      outcome: gather(columns.outcome, rows, new Float64Array(rows.length)),
      lost: gather(columns.lost, rows, new Uint8Array(rows.length)),
      availability: indices(columns.availability),
    },
    region: region && { ...region, index: indices(region.index) },
    box: box && { ...box, index: indices(box.index) },
    cleanTake: cleanTake && gather(cleanTake, rows, new Int8Array(rows.length)),
  };
}

/** Some rows' values, put into `to`, which has as many places. */
export function gather<T extends Int32Array | Int8Array | Uint8Array | Float64Array>(
  values: T,
  rows: Int32Array,
  to: T,
): T {
  for (let i = 0; i < rows.length; i++) to[i] = values[rows[i]!]!;
  return to;
}

function indexed(values: readonly string[]): { labels: readonly string[]; index: Int32Array } {
  const labels = [...new Set(values)].sort();
  const place = new Map(labels.map((label, i) => [label, i]));
  return { labels, index: Int32Array.from(values, (value) => place.get(value)!) };
}

type Optional<T> = readonly (T | null | undefined)[];

function optionalLabels(values: Optional<string>): PoolTable["region"] {
  const labels = [...new Set(values.filter((value) => value != null))].sort();
  if (labels.length === 0) return null;
  const place = new Map<string | null | undefined, number>(labels.map((label, i) => [label, i]));
  return { labels, index: Int32Array.from(values, (value) => place.get(value) ?? -1) };
}

function optionalTexts(values: Optional<string>): PoolTable["box"] {
  if (values.every((value) => value == null)) return null;
  const texts: string[] = [];
  const index = Int32Array.from(values, (value) => (value == null ? -1 : texts.push(value) - 1));
  return { texts: packTexts(texts), index };
}

function optionalFlags(values: Optional<boolean>): PoolTable["cleanTake"] {
  if (values.every((value) => value == null)) return null;
  return Int8Array.from(values, (value) => (value == null ? -1 : Number(value)));
}
