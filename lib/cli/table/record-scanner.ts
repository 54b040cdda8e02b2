export const SEPARATORS = { comma: 0x2c, semicolon: 0x3b, tab: 0x09 } as const;
export type Separator = keyof typeof SEPARATORS;
export const SEPARATOR_WORDS: Readonly<Record<Separator, string>> = {
  comma: "commas",
  semicolon: "semicolons",
  tab: "tabs",
};

const LINE_FEED = 0x0a;
const CARRIAGE_RETURN = 0x0d;
const TAB = 0x09;
const SPACE = 0x20;
const QUOTE = 0x22;

/** More fields than this are counted, not kept. */
export const FIELDS_AT_MOST = 4096;
/** The place of a field that no record has: it is empty. */
export const NO_FIELD = FIELDS_AT_MOST;

/**
 * Finds the fields of one record after another in a piece of a table (RFC 4180, with any of three separators).
 * Fields are given as places in the bytes: nothing is copied. Blanks around a field are no part of it. A doubled
 * quote inside a quoted field is made single in the bytes themselves.
 */
export class RecordScanner {
  /** Where each field of the current record begins and ends. */
  readonly start = new Int32Array(FIELDS_AT_MOST + 1);
  readonly end = new Int32Array(FIELDS_AT_MOST + 1);
  /** How many fields the record has; those beyond FIELDS_AT_MOST have no place. */
  fields = 0;
  /** How many lines it takes. */
  lines = 0;
  /** The first field with a double quote out of place, from 0, or −1; nothing is known of those behind it. */
  brokenField = -1;
  readonly #separator: number;
  /** Numbers of fields with doubled quotes in the current record. */
  #doubled: number[] = [];

  constructor(separator: Separator) {
    this.#separator = SEPARATORS[separator];
  }

  /** A field of the current record as text. */
  text(bytes: Buffer, field: number): string {
    return bytes.toString("utf8", this.start[field], this.end[field]);
  }

  /** All fields of the current record as texts, those without a place left out. */
  texts(bytes: Buffer): string[] {
    return Array.from({ length: Math.min(this.fields, FIELDS_AT_MOST) }, (_, field) =>
      this.text(bytes, field),
    );
  }

  /**
   * Reads the record that begins at `from`; the bytes end at `to`, either after a line feed or, if `last`, with the
   * file. Gives where the next record begins, or −1 if this one goes on behind `to`.
   */
  next(bytes: Buffer, from: number, to: number, last: boolean): number {
    this.fields = 0;
    this.lines = 1;
    this.brokenField = -1;
    if (this.#doubled.length > 0) this.#doubled = [];
    let at = from;
    for (;;) {
      while (at < to && this.#isBlank(bytes[at]!)) at++;
      at = bytes[at] === QUOTE && at < to ? this.#quoted(bytes, at, to, last) : this.#bare(bytes, at, to);
      if (at < 0) return -1;
      if (this.brokenField >= 0) {
        const feed = bytes.indexOf(LINE_FEED, at);
        return feed < 0 || feed >= to ? to : feed + 1;
      }
      if (at >= to || bytes[at] === LINE_FEED) break;
      at++;
    }
    for (const field of this.#doubled) this.#unDouble(bytes, field);
    return Math.min(at + 1, to);
  }

  /** A field without quotes; gives where it ends: at a separator, a line feed or `to`. */
  #bare(bytes: Buffer, start: number, to: number): number {
    const separator = this.#separator;
    let at = start;
    for (; at < to; at++) {
      const byte = bytes[at]!;
      if (byte === separator || byte === LINE_FEED) break;
      if (byte === QUOTE) {
        this.brokenField = this.fields;
        return at;
      }
    }
    this.#keep(bytes, start, at);
    return at;
  }

  /** A field in quotes, the first at `open`; gives where it ends like `#bare`, or −1 if that is not yet read. */
  #quoted(bytes: Buffer, open: number, to: number, last: boolean): number {
    let at = open + 1;
    for (let closed = false; !closed; at++) {
      if (at >= to) {
        if (!last) return -1;
        this.brokenField = this.fields;
        return to;
      }
      if (bytes[at] === LINE_FEED) this.lines++;
      if (bytes[at] !== QUOTE) continue;
      if (at + 1 < to && bytes[at + 1] === QUOTE) {
        at++;
        if (this.#doubled.at(-1) !== this.fields) this.#doubled.push(this.fields);
      } else closed = true;
    }
    const close = at - 1;
    while (at < to && this.#isBlank(bytes[at]!)) at++;
    if (at < to && bytes[at] !== this.#separator && bytes[at] !== LINE_FEED) {
      this.brokenField = this.fields;
      return at;
    }
    this.#keep(bytes, open + 1, close);
    return at;
  }

  #keep(bytes: Buffer, start: number, end: number): void {
    const field = this.fields++;
    if (field >= FIELDS_AT_MOST) return;
    while (start < end && this.#isBlank(bytes[start]!)) start++;
    while (end > start && this.#isBlank(bytes[end - 1]!)) end--;
    this.start[field] = start;
    this.end[field] = end;
  }

  #isBlank(byte: number): boolean {
    return byte === SPACE || byte === CARRIAGE_RETURN || (byte === TAB && this.#separator !== TAB);
  }

  #unDouble(bytes: Buffer, field: number): void {
    if (field >= FIELDS_AT_MOST) return;
    let to = this.start[field]!;
    for (let at = to; at < this.end[field]!; at++) {
      bytes[to++] = bytes[at]!;
      if (bytes[at] === QUOTE) at++;
    }
    this.end[field] = to;
  }
}
