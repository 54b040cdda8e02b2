import type { PoolRow } from "@/shared/schemas/pool";
import { readCsvRecords } from "../table/csv-records";
import { FaultList, type Faults, shown } from "../table/faults";
import { readHeader } from "../table/header";
import { POOL_COLUMNS, RowReader } from "./row-reader";

export type ReadPoolRows =
  | { readonly ok: true; readonly rows: readonly PoolRow[]; readonly remarks: readonly string[] }
  | { readonly ok: false; readonly faults: Faults };

/**
 * Reads a table of boxes as a stream. Either all its rows, with remarks on what was passed over, or everything
 * that is wrong with it; never a part.
 */
export async function readPoolRows(path: string): Promise<ReadPoolRows> {
  const faults = new FaultList();
  let reader: RowReader | null = null;
  let ignored: readonly string[] = [];
  await readCsvRecords(path, faults, (record, line) => {
    if (reader) {
      reader.read(record, line);
      return true;
    }
    const header = readHeader(POOL_COLUMNS, record, line, faults);
    if (!header) return false;
    ignored = header.ignored;
    reader = new RowReader(header, faults);
    return true;
  });
  // Assigned in the callback, which control flow analysis does not follow.
  const { rows, lostWithOutcome } = (reader as RowReader | null) ?? { rows: [], lostWithOutcome: 0 };
  if (faults.isEmpty && rows.length === 0) {
    faults.add({
      kind: "no rows",
      line: null,
      message: "There is a header but no row. Add one line per box.",
    });
  }
  return faults.isEmpty
    ? { ok: true, rows, remarks: remarksOn(ignored, lostWithOutcome) }
    : { ok: false, faults };
}

function remarksOn(ignored: readonly string[], lostWithOutcome: number): string[] {
  const remarks: string[] = [];
  if (ignored.length > 0) remarks.push(`columns not used: ${ignored.map(shown).join(", ")}.`);
  if (lostWithOutcome > 0) {
    remarks.push(`${lostWithOutcome} lost boxes carry an outcome; it is not used.`);
  }
  return remarks;
}
