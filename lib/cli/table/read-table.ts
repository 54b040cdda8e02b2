import type { FaultList } from "./faults";
import {
  type LineReader,
  type Progress,
  RECORD_BYTES_AT_MOST,
  readFileLines,
  refuseLongLine,
  Unreadable,
} from "./file-lines";
import { FIELDS_AT_MOST, RecordScanner, type Separator } from "./record-scanner";

/** What a table is made of beyond its records. */
export interface TableForm {
  /** Separators that occur in the header; the first is the one that splits the table. */
  readonly separators: readonly Separator[];
  readonly byteOrderMark: boolean;
  /** Whether the header ends in CR LF. */
  readonly carriageReturns: boolean;
}

/** Whoever makes something of a table. */
export interface TableTaker {
  /** The header's names; false ends the reading. */
  header(names: readonly string[], line: number, form: TableForm): boolean;
  /** One record, as places in the bytes that hold during this call; `line` is its first. False ends the reading. */
  record(bytes: Buffer, scanner: RecordScanner, line: number): boolean;
}

/**
 * Reads a table's records, the header first, as a stream. What keeps the file from being read is added to `faults`.
 * The separator that splits the header into most fields holds for the table; a byte order mark, CR LF line ends,
 * quoted fields, blank lines and blanks around fields are accepted.
 */
export function readTable(path: string, faults: FaultList, taker: TableTaker, progress?: Progress): void {
  const reader = new TableReader(faults, taker);
  try {
    readFileLines(path, reader, progress);
  } catch (error) {
    addFailure(error, faults);
  }
  if (faults.isEmpty && !reader.started) {
    faults.add({
      kind: "empty file",
      line: null,
      message: "The file is empty. It needs a header line and rows.",
    });
  }
}

const BYTE_ORDER_MARK = Buffer.from("\uFEFF", "utf8");
const LINE_FEED = 0x0a;
const CARRIAGE_RETURN = 0x0d;

/** Ends the reading; what is wrong is in the list already. */
class Stopped extends Error {}

class TableReader implements LineReader {
  line = 1;
  #scanner: RecordScanner | null = null;
  #names: readonly string[] = [];
  #byteOrderMark = false;

  constructor(
    private readonly faults: FaultList,
    private readonly taker: TableTaker,
  ) {}

  get started(): boolean {
    return this.#scanner !== null;
  }

  read(bytes: Buffer, end: number, last: boolean): number {
    let at = 0;
    if (!this.#scanner) {
      at = this.#readHeader(bytes, end, last);
      if (!this.#scanner) return at;
    }
    const scanner: RecordScanner = this.#scanner;
    while (at < end) {
      const next = scanner.next(bytes, at, end, last);
      if (next < 0) break;
      if (next - at > RECORD_BYTES_AT_MOST) refuseLongLine(this.line);
      if (scanner.brokenField >= 0) this.#addBrokenQuote(scanner.brokenField);
      else if (!isBlank(scanner) && !this.taker.record(bytes, scanner, this.line)) throw new Stopped();
      this.line += scanner.lines;
      at = next;
    }
    return at;
  }

  /** Gives where the header ends, or how much of the bytes is blank lines before one that isn't read to its end. */
  #readHeader(bytes: Buffer, end: number, last: boolean): number {
    let at = 0;
    if (this.line === 1 && bytes.subarray(0, end).indexOf(BYTE_ORDER_MARK) === 0) {
      this.#byteOrderMark = true;
      at = BYTE_ORDER_MARK.length;
    }
    for (; at < end; ) {
      const splits = splitRecord(bytes.subarray(at, end), last);
      const split = splits[0];
      if (!split) return at;
      if (split.length > RECORD_BYTES_AT_MOST) refuseLongLine(this.line);
      const line = this.line;
      this.line += split.lines;
      at += split.length;
      if (split.brokenField < 0 && split.names.every((name) => name === "")) continue;
      this.#scanner = new RecordScanner(split.separator);
      if (split.brokenField >= 0) {
        this.#addBrokenQuote(split.brokenField, line);
        throw new Stopped();
      }
      if (split.fields > FIELDS_AT_MOST) {
        throw new Unreadable(
          "too many columns",
          line,
          `The header names more than ${FIELDS_AT_MOST} columns.`,
        );
      }
      this.#names = split.names;
      const form: TableForm = {
        separators: splits.filter(({ fields }, i) => i === 0 || fields > 1).map(({ separator }) => separator),
        byteOrderMark: this.#byteOrderMark,
        carriageReturns: bytes[at - 1] === LINE_FEED && bytes[at - 2] === CARRIAGE_RETURN,
      };
      if (!this.taker.header(split.names, line, form)) throw new Stopped();
      break;
    }
    return at;
  }

  #addBrokenQuote(field: number, line = this.line): void {
    const name = this.#names[field];
    this.faults.add({
      kind: "broken quotes",
      line,
      column: name === undefined ? undefined : { place: field + 1, name },
      message:
        "A double quote is out of place. A quoted field begins and ends with one, and one inside is written twice; one left open runs on to the end of the file.",
    });
  }
}

function isBlank(scanner: RecordScanner): boolean {
  return scanner.fields === 1 && scanner.start[0] === scanner.end[0];
}

interface Split {
  readonly separator: Separator;
  readonly names: readonly string[];
  readonly fields: number;
  readonly brokenField: number;
  /** In bytes, the line feed included. */
  readonly length: number;
  readonly lines: number;
}

/** The first record by each separator, the one with most fields first; empty when none reads it to its end yet. */
function splitRecord(bytes: Buffer, last: boolean): Split[] {
  const splits: Split[] = [];
  for (const separator of ["comma", "semicolon", "tab"] as const) {
    const scanner = new RecordScanner(separator);
    const copy = Buffer.from(bytes);
    const length = scanner.next(copy, 0, copy.length, last);
    if (length < 0) continue;
    const { fields, brokenField, lines } = scanner;
    splits.push({ separator, names: scanner.texts(copy), fields, brokenField, length, lines });
  }
  return splits.sort((a, b) => b.fields - a.fields);
}

/** Failures end the reading, so this is the last fault; anything unexpected is thrown on. */
function addFailure(error: unknown, faults: FaultList): void {
  if (error instanceof Stopped) return;
  if (error instanceof Unreadable) {
    faults.add({ kind: error.kind, line: error.line, message: error.message });
    return;
  }
  const message = fileMessages[(error as NodeJS.ErrnoException).code ?? ""];
  if (!message) throw error;
  faults.add({ kind: "file", line: null, message });
}

const fileMessages: Readonly<Record<string, string>> = {
  ENOENT: "There is no such file. Check the name and the folder you stand in.",
  EISDIR: "This is a folder. Name a CSV file.",
  EACCES: "The file may not be read. Check its permissions.",
  EPERM: "The file may not be read. Check its permissions.",
};
