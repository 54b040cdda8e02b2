import type { PoolTable } from "@/lib/engine/statistics/pool-table";
import { FaultList, type Faults, shown } from "../table/faults";
import type { Progress } from "../table/file-lines";
import { type Header, readHeader } from "../table/header";
import { readTable, type TableForm } from "../table/read-table";
import { SEPARATOR_WORDS } from "../table/record-scanner";
import { POOL_COLUMNS, type PoolColumn } from "./fields";
import { RowReader } from "./row-reader";
import { addTableFaults, unlistedArms } from "./whole-table";

export type ReadPoolTable =
  | { readonly ok: true; readonly table: PoolTable; readonly remarks: readonly string[] }
  | { readonly ok: false; readonly faults: Faults };

/** What the header line told. */
interface Heading {
  readonly header: Header<PoolColumn>;
  readonly form: TableForm;
  readonly rows: RowReader;
}

/**
 * Reads a table of boxes as a stream into columns. Either all its rows, with remarks on what was passed over or
 * read in another way than plain CSV, or everything that is wrong with it; never a part.
 */
export function readPoolTable(path: string, progress?: Progress): ReadPoolTable {
  const faults = new FaultList();
  const { heading } = readRows(path, faults, progress);
  if (!heading || !faults.isEmpty) return { ok: false, faults };
  const table = heading.rows.store.table();
  addTableFaults(table.columns, heading.header, faults);
  return faults.isEmpty ? { ok: true, table, remarks: remarksOn(heading, table) } : { ok: false, faults };
}

function readRows(
  path: string,
  faults: FaultList,
  progress?: Progress,
): { readonly heading: Heading | null } {
  const read: { heading: Heading | null } = { heading: null };
  readTable(
    path,
    faults,
    {
      header(names, line, form) {
        const header = readHeader(POOL_COLUMNS, names, line, faults, form.separators);
        if (header) read.heading = { header, form, rows: new RowReader(header, form.separators[0]!, faults) };
        return header !== null;
      },
      record(bytes, scanner, line) {
        read.heading!.rows.read(bytes, scanner, line);
        return true;
      },
    },
    progress,
  );
  return read;
}

function remarksOn({ header, form, rows }: Heading, { columns }: PoolTable): string[] {
  const remarks: string[] = [];
  const separator = form.separators[0]!;
  const { decimalCommas } = rows.outcomes;
  const unlisted = unlistedArms(columns);
  if (form.byteOrderMark) remarks.push("the file begins with a byte order mark.");
  if (form.carriageReturns) remarks.push("lines end in CR LF.");
  if (separator !== "comma") remarks.push(`fields are separated by ${SEPARATOR_WORDS[separator]}.`);
  if (decimalCommas > 0) remarks.push(`decimal commas were read in ${decimalCommas} outcomes.`);
  if (header.ignored.length > 0) remarks.push(`columns not used: ${header.ignored.map(shown).join(", ")}.`);
  if (rows.lostWithOutcome > 0) {
    remarks.push(`${rows.lostWithOutcome} lost boxes carry an outcome; it is not used.`);
  }
  if (unlisted > 0) {
    remarks.push(
      `${unlisted} boxes hold an arm that is not among the arms available in their outing; arms are separated ` +
        "by spaces there.",
    );
  }
  return remarks;
}
