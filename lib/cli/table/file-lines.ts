import { isUtf8 } from "node:buffer";
import { closeSync, fstatSync, openSync, readSync } from "node:fs";

/** Ends the reading: what follows can't be read as this table. `line` counts from 1; null means the whole file. */
export class Unreadable extends Error {
  constructor(
    readonly kind: string,
    readonly line: number | null,
    message: string,
  ) {
    super(message);
  }
}

/** Takes a file piece by piece. */
export interface LineReader {
  /** The number of the first line not yet taken. */
  readonly line: number;
  /**
   * Takes whole records from the front of the bytes, which end at `end` after a line feed or, if `last`, with the
   * file, and gives how many bytes it took; the rest comes again, with more behind it.
   */
  read(bytes: Buffer, end: number, last: boolean): number;
}

/** Called after each piece with how much of the file was read; `bytesInFile` is 0 where nobody knows (a pipe). */
export type Progress = (bytesRead: number, bytesInFile: number) => void;

export const RECORD_BYTES_AT_MOST = 1024 * 1024;
/** A table beyond this is no trial's; what it would take to hold is more than the reading. */
const FILE_BYTES_AT_MOST = 1e9;
const PIECE_BYTES = 256 * 1024;
const LINE_FEED = 0x0a;

/**
 * Hands a file to `reader` in pieces that end with whole lines, each checked to be UTF-8. Never more than a record
 * and a piece of it are in memory. Throws Unreadable at the first line that isn't UTF-8 or goes on for more than
 * 1 MiB and for a file of more than 1 GB, and Node's own error when the file can't be opened or read.
 */
export function readFileLines(path: string, reader: LineReader, progress?: Progress): void {
  const file = openSync(path, "r");
  try {
    const bytesInFile = fstatSync(file).size;
    const bytes = Buffer.allocUnsafe(RECORD_BYTES_AT_MOST + PIECE_BYTES);
    let held = 0;
    let checked = 0;
    let bytesRead = 0;
    for (let last = false; !last; ) {
      if (Math.max(bytesInFile, bytesRead) > FILE_BYTES_AT_MOST) refuseLargeFile();
      const added = readSync(file, bytes, held, PIECE_BYTES, null);
      bytesRead += added;
      last = added === 0;
      const filled = held + added;
      const end = last ? filled : bytes.subarray(0, filled).lastIndexOf(LINE_FEED) + 1;
      if (end > checked && !isUtf8(bytes.subarray(checked, end))) refuseFirstBadLine(bytes, end, reader.line);
      const taken = end === 0 ? 0 : reader.read(bytes, end, last);
      bytes.copyWithin(0, taken, filled);
      held = filled - taken;
      checked = Math.max(end, checked) - taken;
      if (held > RECORD_BYTES_AT_MOST) refuseLongLine(reader.line);
      progress?.(bytesRead, bytesInFile);
    }
  } finally {
    closeSync(file);
  }
}

function refuseLargeFile(): never {
  throw new Unreadable(
    "tables too large",
    null,
    "The file is larger than 1 GB, more than the command takes. Leave out columns that aren't needed, or split it.",
  );
}

export function refuseLongLine(line: number): never {
  throw new Unreadable(
    "lines too long",
    line,
    "The line is longer than 1 MB. Is this a CSV table? A missing quote can also join lines.",
  );
}

function refuseFirstBadLine(bytes: Buffer, end: number, firstLine: number): never {
  let line = firstLine;
  for (let start = 0; start < end; line++) {
    const feed = bytes.indexOf(LINE_FEED, start);
    const next = feed < 0 || feed >= end ? end : feed + 1;
    if (!isUtf8(bytes.subarray(start, next))) break;
    start = next;
  }
  throw new Unreadable(
    "unreadable lines",
    line,
    'The line is not UTF-8 text. Save the table as "CSV UTF-8" from your spreadsheet.',
  );
}
