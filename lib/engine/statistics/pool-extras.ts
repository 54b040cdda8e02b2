import { gather } from "./pool-table";

/** Which of `labels` a row belongs to, alike in all boxes of an outing; −1 where that isn't known. */
export interface RowGroups {
  readonly labels: readonly string[];
  readonly index: Int32Array;
}

/** What is known of boxes beyond their table, by its rows. What no box knows is null. */
export interface PoolExtras {
  /** Which of `labels`, arms' names, was cooked in fact; −1 where something else or nothing was. */
  readonly asCooked: { readonly labels: readonly string[]; readonly index: Int32Array } | null;
  /** Whole days from set-out to fetch, NaN where unknown. */
  readonly fetchDay: Float64Array | null;
  /** Grams of usable grain weighed from a box, NaN where not measured; what stands there for a lost box is not read. */
  readonly usableMassG: Float64Array | null;
  /** Second looks at photographs, one entry each: the box's row, the grader's number, growth 0–4. */
  readonly masked: {
    readonly row: Int32Array;
    readonly grader: Int32Array;
    readonly take: Int8Array;
  } | null;
  /** Season of set-out (shared/vocabulary/season.ts). */
  readonly season: RowGroups | null;
  /** How warm it was after set-out (shared/vocabulary/exposure.ts). */
  readonly warmth: RowGroups | null;
  /** 1 where a set of the same trial stood at the same spot on an earlier day, else 0; alike in all boxes of an outing. */
  readonly reusedSpot: Uint8Array | null;
}

export const NO_EXTRAS: PoolExtras = {
  asCooked: null,
  fetchDay: null,
  usableMassG: null,
  masked: null,
  season: null,
  warmth: null,
  reusedSpot: null,
};

/** The same for a table whose place i holds row `rows[i]` of the former one; looks at rows left out are left out. */
export function extrasOf(
  { asCooked, fetchDay, usableMassG, masked, season, warmth, reusedSpot }: PoolExtras,
  rows: Int32Array,
): PoolExtras {
  return {
    asCooked: asCooked && movedGroups(asCooked, rows),
    fetchDay: fetchDay && gather(fetchDay, rows, new Float64Array(rows.length)),
    usableMassG: usableMassG && gather(usableMassG, rows, new Float64Array(rows.length)),
    masked: masked && movedLooks(masked, rows),
    season: season && movedGroups(season, rows),
    warmth: warmth && movedGroups(warmth, rows),
    reusedSpot: reusedSpot && gather(reusedSpot, rows, new Uint8Array(rows.length)),
  };
}

function movedGroups({ labels, index }: RowGroups, rows: Int32Array): RowGroups {
  return { labels, index: gather(index, rows, new Int32Array(rows.length)) };
}

function movedLooks(masked: NonNullable<PoolExtras["masked"]>, rows: Int32Array): PoolExtras["masked"] {
  const placeOf = new Map(Array.from(rows, (row, place) => [row, place] as const));
  const kept = Int32Array.from(masked.row.keys()).filter((i) => placeOf.has(masked.row[i]!));
  return {
    row: kept.map((i) => placeOf.get(masked.row[i]!)!),
    grader: kept.map((i) => masked.grader[i]!),
    take: Int8Array.from(kept, (i) => masked.take[i]!),
  };
}
