import type { PackedTexts } from "@/lib/engine/statistics/packed-texts";
import { Unreadable } from "../table/file-lines";
import { IntList } from "./int-list";

/** No column of names takes more memory than this. */
const BYTES_AT_MOST = 128 * 1024 * 1024;
const NO_LABEL = -1;

/**
 * Numbers the different names of a column from 0 in the order they first occur, straight from the file's bytes, so
 * that no string is made for a name that came before. A hash table with open addressing over the names' bytes.
 */
export class ByteLabels {
  #bytes = new Uint8Array(4096);
  #used = 0;
  readonly #ends = new IntList();
  /** Label numbers by hash, NO_LABEL where free; at most half full. Its length is a power of two. */
  #slots = new Int32Array(2048).fill(NO_LABEL);
  #last = NO_LABEL;

  get size(): number {
    return this.#ends.length;
  }

  /** The number of the name in `bytes` from `start` to `end`; a new one's is the former `size`. */
  numberOf(bytes: Uint8Array, start: number, end: number): number {
    if (this.#last !== NO_LABEL && this.#holds(this.#last, bytes, start, end)) return this.#last;
    const mask = this.#slots.length - 1;
    let slot = hashOf(bytes, start, end) & mask;
    for (let label = this.#slots[slot]!; label !== NO_LABEL; label = this.#slots[slot]!) {
      if (this.#holds(label, bytes, start, end)) {
        this.#last = label;
        return label;
      }
      slot = (slot + 1) & mask;
    }
    this.#last = this.#add(bytes, start, end);
    this.#slots[slot] = this.#last;
    if (2 * this.size > this.#slots.length) this.#growSlots();
    return this.#last;
  }

  /** One name as text. */
  text(label: number): string {
    return Buffer.from(this.#bytes.buffer).toString("utf8", this.#startOf(label), this.#ends.at(label));
  }

  /** All names by number. */
  texts(): string[] {
    return Array.from({ length: this.size }, (_, label) => this.text(label));
  }

  packed(): PackedTexts {
    return { bytes: this.#bytes.subarray(0, this.#used), ends: this.#ends.view() };
  }

  #startOf(label: number): number {
    return label === 0 ? 0 : this.#ends.at(label - 1);
  }

  #holds(label: number, bytes: Uint8Array, start: number, end: number): boolean {
    const from = this.#startOf(label);
    const length = end - start;
    if (this.#ends.at(label) - from !== length) return false;
    const own = this.#bytes;
    for (let i = 0; i < length; i++) if (own[from + i] !== bytes[start + i]) return false;
    return true;
  }

  #add(bytes: Uint8Array, start: number, end: number): number {
    const used = this.#used + end - start;
    if (used > BYTES_AT_MOST) {
      throw new Unreadable(
        "tables too large",
        null,
        "The names of one column take more than 128 MB, more than the command takes. Shorten them or pool in parts.",
      );
    }
    if (used > this.#bytes.length) {
      const larger = new Uint8Array(Math.max(2 * this.#bytes.length, used));
      larger.set(this.#bytes.subarray(0, this.#used));
      this.#bytes = larger;
    }
    this.#bytes.set(bytes.subarray(start, end), this.#used);
    this.#used = used;
    this.#ends.push(used);
    return this.size - 1;
  }

  #growSlots(): void {
    const slots = new Int32Array(2 * this.#slots.length).fill(NO_LABEL);
    const mask = slots.length - 1;
    for (let label = 0; label < this.size; label++) {
      let slot = hashOf(this.#bytes, this.#startOf(label), this.#ends.at(label)) & mask;
      while (slots[slot] !== NO_LABEL) slot = (slot + 1) & mask;
      slots[slot] = label;
    }
    this.#slots = slots;
  }
}

/** FNV-1a of 32 bits (Fowler, Noll & Vo), its high bits folded in, as the table looks at low ones only. */
function hashOf(bytes: Uint8Array, start: number, end: number): number {
  let hash = 0x811c9dc5;
  for (let i = start; i < end; i++) hash = Math.imul(hash ^ bytes[i]!, 0x01000193);
  return (hash ^ (hash >>> 15)) >>> 0;
}
