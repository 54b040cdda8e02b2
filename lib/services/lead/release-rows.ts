import type { ReleaseBox } from "@/lib/data/releases";
import { ledgerOutingId } from "@/lib/engine/design/ledger-outing-id";
import { type JoinedGroups, joinedGroups } from "@/lib/engine/statistics/joined-groups";
import { packTexts } from "@/lib/engine/statistics/packed-texts";
import { extrasOf, type PoolExtras, type RowGroups } from "@/lib/engine/statistics/pool-extras";
import { type PoolTable, rowsOfTable } from "@/lib/engine/statistics/pool-table";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { PoolData } from "@/lib/services/pool-data";
import { boxAt, type MoreColumn, rowsCsv } from "@/lib/services/rows-csv";
import { LEAST_MINIMUM } from "@/shared/schemas/plan";

/** The rows of a release, and what its figures are worked out from: nothing that isn't in the rows. */
export interface ReleaseRows extends PoolData {
  readonly csv: string;
  readonly joined: JoinedGroups | null;
}

/**
 * Rows that tell nothing but what growers agreed to: no place, no day, no code of a label, no climate group of fewer
 * than three growers. Growers and sets have the names they have in the trial's ledger, and a box is its set with its
 * place in it, so that everyone can compare each row's recipe with the draw. The ledger, public since the close,
 * tells the climate group of every set: joining groups keeps a lone household out of the figures, not out of the
 * ledger.
 */
export function releaseRows(
  data: PoolData,
  boxes: readonly ReleaseBox[],
  {
    secretHex,
    grouping,
  }: { readonly secretHex: string; readonly grouping: readonly { readonly code: string }[] },
): Result<ReleaseRows, "TOO_FEW_HOUSEHOLDS"> {
  const { columns } = data.table;
  const joined = joinedGroups(growersByGroup(data.table, grouping), LEAST_MINIMUM.growersPerCell);
  if (joined === false || columns.n === 0) return refuse("TOO_FEW_HOUSEHOLDS");
  const known = boxesByRow(data.table, boxes);
  const named = withLedgerNames(data.table, known, secretHex);
  const order = Int32Array.from(known.keys()).sort(
    (a, b) =>
      compare(
        named.columns.labels.outing[columns.outing[a]!]!,
        named.columns.labels.outing[columns.outing[b]!]!,
      ) || known[a]!.position - known[b]!.position,
  );
  const table = rowsOfTable(joined ? withJoinedGroups(named, joined) : named, order);
  const extras = extrasOf(data.extras, order);
  const sorted = Array.from(order, (row) => known[row]!);
  return done({ table, extras, joined, csv: rowsCsv(table, moreColumns(table, extras, sorted)) });
}

function compare(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}

function growersByGroup(
  { columns: { n, labels, band, grower } }: PoolTable,
  grouping: readonly { readonly code: string }[],
): Map<string, Set<string>> {
  const groups = new Map(grouping.map(({ code }) => [code, new Set<string>()]));
  for (let row = 0; row < n; row++) groups.get(labels.band[band[row]!]!)?.add(labels.grower[grower[row]!]!);
  return new Map([...groups].filter(([, growers]) => growers.size > 0));
}

/** What is known of the box in each row. */
function boxesByRow({ columns, box }: PoolTable, boxes: readonly ReleaseBox[]): ReleaseBox[] {
  const keyOf = (outing: string, code: string): string => `${outing}\n${code}`;
  const byCode = new Map(boxes.map((each) => [keyOf(each.outing, each.box), each]));
  return Array.from({ length: columns.n }, (_, row) => {
    const outing = columns.labels.outing[columns.outing[row]!]!;
    return byCode.get(keyOf(outing, boxAt(box!, row)!))!;
  });
}

function withLedgerNames(table: PoolTable, known: readonly ReleaseBox[], secretHex: string): PoolTable {
  const { columns } = table;
  const names = new Map<string, string>();
  for (const { outing, outingId } of known) {
    if (!names.has(outing)) names.set(outing, ledgerOutingId(secretHex, outingId));
  }
  return {
    ...table,
    columns: {
      ...columns,
      labels: { ...columns.labels, outing: columns.labels.outing.map((code) => names.get(code)!) },
    },
    box: {
      texts: packTexts(known.map(({ outing, position }) => `${names.get(outing)}.${position}`)),
      index: Int32Array.from(known.keys()),
    },
  };
}

function withJoinedGroups(table: PoolTable, { code, of }: JoinedGroups): PoolTable {
  const { columns } = table;
  const before = columns.labels.band;
  const band = [...before.filter((label) => !of.includes(label)), code];
  const moved = before.map((label) => band.indexOf(of.includes(label) ? code : label));
  return {
    ...table,
    columns: {
      ...columns,
      labels: { ...columns.labels, band },
      band: columns.band.map((each) => moved[each]!),
    },
  };
}

/** What the rows tell beside the analysis' own columns; empty where nothing was said. */
function moreColumns(
  { columns }: PoolTable,
  { fetchDay, usableMassG, masked, season, warmth, reusedSpot }: PoolExtras,
  boxes: readonly ReleaseBox[],
): MoreColumn[] {
  const isLost = (row: number): boolean => columns.lost[row] === 1;
  const number = (values: Float64Array | null, row: number): number | null =>
    values === null || Number.isNaN(values[row]!) ? null : values[row]!;
  const labelAt = (groups: RowGroups | null, row: number) => groups?.labels[groups.index[row]!];
  const looks = new Map<number, string[]>();
  masked?.row.forEach((row, i) => {
    const look = `${masked.grader[i]! + 1}:${masked.take[i]}`;
    looks.set(row, [...(looks.get(row) ?? []), look]);
  });
  return [
    { name: "cooked", at: (row) => boxes[row]!.cooked },
    { name: "happened", at: (row) => boxes[row]!.happened },
    { name: "usable_g", at: (row) => (isLost(row) ? null : number(usableMassG, row)) },
    { name: "total_g", at: (row) => (isLost(row) ? null : boxes[row]!.totalMassG) },
    { name: "days_out", at: (row) => number(fetchDay, row) },
    { name: "season", at: (row) => labelAt(season, row) },
    { name: "warmth", at: (row) => labelAt(warmth, row) },
    { name: "spot_used_before", at: (row) => reusedSpot?.[row] ?? null },
    { name: "second_looks", at: (row) => looks.get(row)?.join(" ") },
  ];
}
