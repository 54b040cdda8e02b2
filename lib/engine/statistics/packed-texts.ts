import { utf8ToBytes } from "../random/hash";

/** Many short texts as UTF-8 bytes end to end: text i stands from `ends[i − 1]` (0 for the first) to `ends[i]`. */
export interface PackedTexts {
  readonly bytes: Uint8Array;
  readonly ends: Int32Array;
}

/** The texts end to end, in their order. ASCII is copied by hand: an encoder's call costs more than a short text. */
export function packTexts(texts: readonly string[]): PackedTexts {
  const ends = new Int32Array(texts.length);
  let bytes = new Uint8Array(1024);
  let end = 0;
  for (let i = 0; i < texts.length; i++) {
    const text = texts[i]!;
    // No UTF-16 code unit takes more than three bytes of UTF-8.
    if (end + 3 * text.length > bytes.length) {
      const larger = new Uint8Array(2 * (end + 3 * text.length));
      larger.set(bytes);
      bytes = larger;
    }
    let at = end;
    for (let place = 0; place < text.length; place++) {
      const unit = text.charCodeAt(place);
      if (unit >= 0x80) {
        const encoded = utf8ToBytes(text);
        bytes.set(encoded, end);
        at = end + encoded.length;
        break;
      }
      bytes[at++] = unit;
    }
    end = at;
    ends[i] = end;
  }
  return { bytes: bytes.subarray(0, end), ends };
}

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const HEX_DIGITS = "0123456789abcdef";
/** Control characters with an escape of their own in JSON; the others are \u00xx. */
const SHORT_ESCAPES: ReadonlyMap<number, string> = new Map([
  [0x08, "b"],
  [0x09, "t"],
  [0x0a, "n"],
  [0x0c, "f"],
  [0x0d, "r"],
]);

/** Each text as a JSON string, quotes included, as RFC 8785 writes it. */
export function jsonTexts({ bytes, ends }: PackedTexts): PackedTexts {
  let extra = 0;
  for (const byte of bytes) {
    if (byte < 0x20) extra += SHORT_ESCAPES.has(byte) ? 1 : 5;
    else if (byte === QUOTE || byte === BACKSLASH) extra++;
  }
  const out = new Uint8Array(bytes.length + extra + 2 * ends.length);
  const outEnds = new Int32Array(ends.length);
  let at = 0;
  let from = 0;
  for (let i = 0; i < ends.length; i++) {
    out[at++] = QUOTE;
    for (; from < ends[i]!; from++) at = writeJsonByte(out, at, bytes[from]!);
    out[at++] = QUOTE;
    outEnds[i] = at;
  }
  return { bytes: out, ends: outEnds };
}

function writeJsonByte(out: Uint8Array, at: number, byte: number): number {
  if (byte >= 0x20 && byte !== QUOTE && byte !== BACKSLASH) {
    out[at] = byte;
    return at + 1;
  }
  out[at] = BACKSLASH;
  if (byte >= 0x20) {
    out[at + 1] = byte;
    return at + 2;
  }
  const escaped = SHORT_ESCAPES.get(byte) ?? `u00${HEX_DIGITS[byte >> 4]}${HEX_DIGITS[byte & 15]}`;
  for (let i = 0; i < escaped.length; i++) out[at + 1 + i] = escaped.charCodeAt(i);
  return at + 1 + escaped.length;
}

/** Up to this many texts are put in order by insertion. */
const FEW = 12;
/** One for each byte and one for a text's end. */
const KEYS = 257;

/**
 * Each text's rank from 0 in UTF-16 code-unit order, equal texts sharing theirs. A radix sort from the first byte
 * on: time grows with the bytes looked at, not with their logarithm.
 */
export function rankTexts(texts: PackedTexts): Int32Array {
  const n = texts.ends.length;
  const order = new Int32Array(n).map((_, i) => i);
  const spare = new Int32Array(n);
  const next = new Int32Array(KEYS);
  const parts: [from: number, to: number, depth: number][] = [[0, n, 0]];
  for (let part = parts.pop(); part; part = parts.pop()) {
    const [from, to, depth] = part;
    if (to - from <= FEW) {
      insertInOrder(texts, order, from, to, depth);
      continue;
    }
    next.fill(0);
    for (let i = from; i < to; i++) next[keyAt(texts, order[i]!, depth)]!++;
    for (let key = 0, start = from; key < KEYS; key++) {
      const count = next[key]!;
      next[key] = start;
      start += count;
      if (key > 0 && count > 1) parts.push([start - count, start, depth + 1]);
    }
    for (let i = from; i < to; i++) {
      const text = order[i]!;
      spare[next[keyAt(texts, text, depth)]!++] = text;
    }
    order.set(spare.subarray(from, to), from);
  }
  return sharedRanks(texts, order);
}

/** The texts' order in bytes, but for U+E000 to U+FFFF, which in UTF-16 come after the surrogates; 0 past the end. */
function keyAt({ bytes, ends }: PackedTexts, text: number, depth: number): number {
  const at = (text === 0 ? 0 : ends[text - 1]!) + depth;
  if (at >= ends[text]!) return 0;
  const byte = bytes[at]!;
  return byte === 0xee || byte === 0xef ? byte + 0x10 + 1 : byte + 1;
}

function compareFrom(texts: PackedTexts, a: number, b: number, depth: number): number {
  for (let at = depth; ; at++) {
    const key = keyAt(texts, a, at);
    const difference = key - keyAt(texts, b, at);
    if (difference !== 0 || key === 0) return difference;
  }
}

function insertInOrder(texts: PackedTexts, order: Int32Array, from: number, to: number, depth: number): void {
  for (let i = from + 1; i < to; i++) {
    const text = order[i]!;
    let at = i;
    for (; at > from && compareFrom(texts, order[at - 1]!, text, depth) > 0; at--) order[at] = order[at - 1]!;
    order[at] = text;
  }
}

function sharedRanks(texts: PackedTexts, order: Int32Array): Int32Array {
  const ranks = new Int32Array(order.length);
  for (let i = 1; i < order.length; i++) {
    const same = compareFrom(texts, order[i - 1]!, order[i]!, 0) === 0;
    ranks[order[i]!] = ranks[order[i - 1]!]! + (same ? 0 : 1);
  }
  return ranks;
}
