const POINT = 0x2e;
const COMMA = 0x2c;
const PLUS = 0x2b;
const MINUS = 0x2d;
const ZERO = 0x30;
/** Digits with an optional point and exponent; no thousands separators, no other bases. */
const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
/** As many digits as any whole number below 2⁵³ has room for. */
const EXACT_DIGITS = 15;
const POWERS_OF_TEN = Float64Array.from({ length: EXACT_DIGITS + 1 }, (_, i) => 10 ** i);

/**
 * Reads outcomes from their bytes: decimal points, and decimal commas where the table allows them, but not both.
 */
export class OutcomeReader {
  /** Outcomes with a decimal comma so far. */
  decimalCommas = 0;
  /** The mark of the first outcome that had one, 0 before it. */
  #mark = 0;
  /** Whether the last outcome read had the other mark. */
  otherMark = false;

  constructor(private readonly commasAllowed: boolean) {}

  /** The number between `start` and `end`; NaN when it is none, or has the other mark than those before. */
  read(bytes: Buffer, start: number, end: number): number {
    this.otherMark = false;
    let at = start;
    const negative = bytes[at] === MINUS;
    if (negative || bytes[at] === PLUS) at++;
    let whole = 0;
    let digits = 0;
    let mark = 0;
    let behindMark = 0;
    for (; at < end; at++) {
      const byte = bytes[at]!;
      if (byte >= ZERO && byte <= ZERO + 9) {
        whole = whole * 10 + byte - ZERO;
        digits++;
        if (mark !== 0) behindMark++;
      } else if (mark === 0 && (byte === POINT || (byte === COMMA && this.commasAllowed))) {
        mark = byte;
      } else break;
    }
    const simple = at === end && digits > 0 && digits <= EXACT_DIGITS;
    // Both are exact, so their quotient is the nearest number to the decimal (Clinger 1990, PLDI, §4).
    const size = simple ? whole / POWERS_OF_TEN[behindMark]! : parsed(bytes, start, end, mark);
    if (Number.isNaN(size)) return size;
    if (mark !== 0 && !this.#accepts(mark)) return Number.NaN;
    return simple && negative ? -size : size;
  }

  #accepts(mark: number): boolean {
    if (this.#mark === 0) this.#mark = mark;
    this.otherMark = this.#mark !== mark;
    if (mark === COMMA) this.decimalCommas++;
    return !this.otherMark;
  }
}

function parsed(bytes: Buffer, start: number, end: number, mark: number): number {
  const text = bytes.toString("utf8", start, end);
  const pointed = mark === COMMA ? text.replace(",", ".") : text;
  const value = DECIMAL.test(pointed) ? Number(pointed) : Number.NaN;
  return Number.isFinite(value) ? value : Number.NaN;
}
