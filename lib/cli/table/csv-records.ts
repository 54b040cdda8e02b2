import { createReadStream } from "node:fs";
import { pipeline } from "node:stream/promises";
import { CsvError, type Info, parse } from "csv-parse";
import type { FaultList } from "./faults";
import { UnreadableLine, utf8Lines } from "./utf8-lines";

interface CsvRecord {
  readonly record: string[];
  readonly info: Info;
}

/** Ends the reading; what is wrong is in the list already. */
class Stopped extends Error {}

/**
 * Streams a table's records, the header first, to `take` with the line each ends in; `take` answers whether to go
 * on. What keeps the file from being read is added to `faults`. A byte order mark, CR LF line ends, quoted fields,
 * blank lines and spaces around fields are accepted.
 */
export async function readCsvRecords(
  path: string,
  faults: FaultList,
  take: (record: readonly string[], line: number) => boolean,
): Promise<void> {
  let started = false;

  async function takeAll(records: AsyncIterable<CsvRecord>): Promise<void> {
    const lineOf = lineCounter();
    for await (const csvRecord of records) {
      started = true;
      if (!take(csvRecord.record, lineOf(csvRecord))) throw new Stopped();
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
    await pipeline(createReadStream(path), utf8Lines, parser, takeAll);
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

/** Failures end the reading, so this is the last fault; anything unexpected is thrown on. */
function addFailure(error: unknown, faults: FaultList): void {
  if (error instanceof Stopped) return;
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
