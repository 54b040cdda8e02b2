import { utf8ToBytes } from "../random/hash";
import { outcomeText } from "./canonical-order";
import type { PoolColumns } from "./columns";
import { jsonTexts, type PackedTexts, packTexts } from "./packed-texts";
import type { PoolTable } from "./pool-table";

const CHUNK_BYTES = 1 << 16;

/** The table's canonical text (see `canonicalTable`) in pieces; a piece is overwritten once the next is asked for. */
export function* canonicalText(table: PoolTable, order: Int32Array): Generator<Uint8Array> {
  const { columns, region, box, cleanTake } = table;
  const { labels, outcome, lost } = columns;
  const boxes = box && jsonTexts(box.texts);
  const cleanTakes = packTexts([',"cleanTake":null', ',"cleanTake":false', ',"cleanTake":true']);
  const growers = members(',"grower":', labels.grower, ',"outcome":');
  const outings = members(',"outing":', labels.outing);
  const regions = members(',"region":', region?.labels ?? []);
  const statuses = packTexts([',"status":"graded"}\n', ',"status":"lost"}\n']);
  const [noBox, noRegion] = ["null", ',"region":null'].map(utf8ToBytes);
  const headOf = lineHeads(columns, boxes || cleanTake ? "" : 'null,"cleanTake":null');
  const out = new ByteWriter();
  for (let i = 0; i < order.length; i++) {
    const row = order[i]!;
    if (out.length > CHUNK_BYTES) yield out.take();
    out.addAll(headOf(row));
    if (boxes || cleanTake) {
      if (boxes && box.index[row]! >= 0) out.add(boxes, box.index[row]!);
      else out.addAll(noBox!);
      out.add(cleanTakes, cleanTake ? cleanTake[row]! + 1 : 0);
    }
    out.add(growers, columns.grower[row]!);
    out.addNumber(outcome[row]!);
    out.add(outings, columns.outing[row]!);
    if (region && region.index[row]! >= 0) out.add(regions, region.index[row]!);
    else out.addAll(noRegion!);
    out.add(statuses, lost[row]!);
  }
  yield out.take();
}

/**
 * A row's line up to its box, and what is alike in all lines after it; rows in canonical order share theirs for long,
 * so the last one is kept.
 */
function lineHeads(
  { labels, arm, availability, band }: PoolColumns,
  ending: string,
): (row: number) => Uint8Array {
  let last = -1;
  let head = new Uint8Array();
  return (row) => {
    const [a, v, b] = [arm[row]!, availability[row]!, band[row]!];
    if (last >= 0 && arm[last] === a && availability[last] === v && band[last] === b) return head;
    last = row;
    const available = labels.availability[v]!;
    const stated = available === "" ? "" : `,"available":${JSON.stringify(available)}`;
    head = utf8ToBytes(
      `{"arm":${JSON.stringify(labels.arm[a])}${stated},"band":${JSON.stringify(labels.band[b])},"box":${ending}`,
    );
    return head;
  };
}

/** A member of the object for each label. */
function members(before: string, labels: readonly string[], after = ""): PackedTexts {
  return packTexts(labels.map((label) => before + JSON.stringify(label) + after));
}

/** Bytes gathered one after another. */
class ByteWriter {
  #bytes = new Uint8Array(2 * CHUNK_BYTES);
  length = 0;

  /** What was gathered, valid until more is added. */
  take(): Uint8Array {
    const taken = this.#bytes.subarray(0, this.length);
    this.length = 0;
    return taken;
  }

  /** Copied by hand: these are a few bytes each. */
  add({ bytes, ends }: PackedTexts, text: number): void {
    const start = text === 0 ? 0 : ends[text - 1]!;
    const end = ends[text]!;
    this.#makeRoom(end - start);
    const own = this.#bytes;
    let at = this.length;
    for (let i = start; i < end; i++) own[at++] = bytes[i]!;
    this.length = at;
  }

  addAll(bytes: Uint8Array): void {
    this.#makeRoom(bytes.length);
    this.#bytes.set(bytes, this.length);
    this.length += bytes.length;
  }

  addNumber(outcome: number): void {
    if (Math.abs(outcome) === Number.POSITIVE_INFINITY) {
      throw new RangeError(`An outcome is a finite number; got ${outcome}. Leave out what was not measured.`);
    }
    const text = outcomeText(outcome);
    this.#makeRoom(text.length);
    for (let i = 0; i < text.length; i++) this.#bytes[this.length++] = text.charCodeAt(i);
  }

  #makeRoom(more: number): void {
    if (this.length + more <= this.#bytes.length) return;
    const larger = new Uint8Array(2 * (this.length + more));
    larger.set(this.#bytes.subarray(0, this.length));
    this.#bytes = larger;
  }
}
