import { isUtf8 } from "node:buffer";

/** Thrown while streaming when the bytes are not those of a table; `line` counts from 1. */
export class UnreadableLine extends Error {
  constructor(
    readonly line: number,
    message: string,
  ) {
    super(message);
  }
}

export const LINE_BYTES_AT_MOST = 1024 * 1024;
const LINE_FEED = 0x0a;

/**
 * Passes the bytes on in pieces that end with whole lines, each checked to be UTF-8.
 * Throws UnreadableLine at the first line that isn't, or is longer than 1 MiB.
 */
export async function* utf8Lines(source: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
  let line = 1;
  let rest: Buffer = Buffer.alloc(0);
  for await (const chunk of source) {
    const bytes = rest.length > 0 ? Buffer.concat([rest, chunk]) : chunk;
    const end = bytes.lastIndexOf(LINE_FEED) + 1;
    const lines = bytes.subarray(0, end);
    if (!isUtf8(lines)) refuseFirstBadLine(lines, line);
    line += countLineFeeds(lines);
    rest = bytes.subarray(end);
    if (rest.length > LINE_BYTES_AT_MOST) {
      throw new UnreadableLine(
        line,
        "The line is longer than 1 MB. Is this a CSV table? A missing quote can also join lines.",
      );
    }
    if (end > 0) yield lines;
  }
  if (!isUtf8(rest)) refuseFirstBadLine(rest, line);
  if (rest.length > 0) yield rest;
}

function refuseFirstBadLine(bytes: Buffer, firstLine: number): never {
  let line = firstLine;
  for (let start = 0; start < bytes.length; line++) {
    const feed = bytes.indexOf(LINE_FEED, start);
    const end = feed < 0 ? bytes.length : feed + 1;
    if (!isUtf8(bytes.subarray(start, end))) break;
    start = end;
  }
  throw new UnreadableLine(
    line,
    'The line is not UTF-8 text. Save the table as "CSV UTF-8" from your spreadsheet.',
  );
}

function countLineFeeds(bytes: Buffer): number {
  let count = 0;
  for (let at = bytes.indexOf(LINE_FEED); at >= 0; at = bytes.indexOf(LINE_FEED, at + 1)) count++;
  return count;
}
