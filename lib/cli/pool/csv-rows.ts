import { createReadStream } from "node:fs";
import { pipeline } from "node:stream/promises";
import { CsvError, type Info, parse } from "csv-parse";
import type { PoolRow } from "@/shared/schemas/pool";
import { FaultList, type Faults, shown } from "./faults";
import { readHeader } from "./header";
import { RowReader } from "./row-reader";
import { UnreadableLine, utf8Lines } from "./utf8-lines";

export type ReadPoolRows =
  | { readonly ok: true; readonly rows: readonly PoolRow[]; readonly remarks: readonly string[] }
  | { readonly ok: false; readonly faults: Faults };

interface CsvRecord {
  readonly record: string[];
  readonly info: Info;
}

/** Ends the reading: without a header nothing can be said of the lines. Its faults are in the list already. */
class HeaderRefused extends Error {}

/**
 * Reads a table of boxes as a stream. Either all its rows, with remarks on what was passed over, or everything
 * that is wrong with it; never a part. A byte order mark, CR LF line ends, quoted fields, blank lines and spaces
 * around fields are accepted.
 */
export async function readPoolRows(path: string): Promise<ReadPoolRows> {
  const faults = new FaultList();
  let reader: RowReader | null = null;
  let ignored: readonly string[] = [];
  let started = false;

  async function take(records: AsyncIterable<CsvRecord>): Promise<void> {
    const lineOf = lineCounter();
    for await (const csvRecord of records) {
      const line = lineOf(csvRecord);
      if (reader) {
        reader.read(csvRecord.record, line);
        continue;
      }
      started = true;
      const header = readHeader(csvRecord.record, line, faults);
      if (!header) throw new HeaderRefused();
      ignored = header.ignored;
      reader = new RowReader(header, faults);
    }
  }

  const parser = parse({
    bom: true,
    info: true,
    relax_column_count: true,
    skip_empty_lines: true,
    trim: true,
  });
  try {
    await pipeline(createReadStream(path), utf8Lines, parser, take);
  } catch (error) {
    addFailure(error, faults);
  }
  if (faults.isEmpty && !started) {
    faults.add({
      kind: "empty file",
      line: null,
      message: "The file is empty. It needs a header line and rows.",
    });
  }
  const { rows, lostWithOutcome } = reader ?? { rows: [], lostWithOutcome: 0 };
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

/** The line a record ends in. The parser counts a CR LF inside a quoted field as two lines, an editor as one. */
function lineCounter(): (record: CsvRecord) => number {
  let previous = 0;
  let countedTwice = 0;
  return ({ record, info }) => {
    if (info.lines > previous + 1) {
      for (const field of record) countedTwice += field.split("\r\n").length - 1;
    }
    previous = info.lines;
    return info.lines - countedTwice;
  };
}

function remarksOn(ignored: readonly string[], lostWithOutcome: number): string[] {
  const remarks: string[] = [];
  if (ignored.length > 0) remarks.push(`columns not used: ${ignored.map(shown).join(", ")}.`);
  if (lostWithOutcome > 0) {
    remarks.push(`${lostWithOutcome} lost boxes carry an outcome; it is not used.`);
  }
  return remarks;
}

/** Failures end the reading, so this is the last fault; anything unexpected is thrown on. */
function addFailure(error: unknown, faults: FaultList): void {
  if (error instanceof HeaderRefused) return;
  if (error instanceof UnreadableLine) {
    faults.add({ kind: "unreadable lines", line: error.line, message: error.message });
  } else if (error instanceof CsvError) {
    const { lines } = error as CsvError & { lines?: number };
    faults.add({
      kind: "broken quotes",
      line: lines ?? null,
      message:
        "A double quote is out of place. A quoted field begins and ends with one, and one inside is written twice; one left open runs on to the end of the file.",
    });
  } else {
    const message = fileMessages[(error as NodeJS.ErrnoException).code ?? ""];
    if (!message) throw error;
    faults.add({ kind: "file", line: null, message });
  }
}

const fileMessages: Readonly<Record<string, string>> = {
  ENOENT: "There is no such file. Check the name and the folder you stand in.",
  EISDIR: "This is a folder. Name a CSV file.",
  EACCES: "The file may not be read. Check its permissions.",
  EPERM: "The file may not be read. Check its permissions.",
};
