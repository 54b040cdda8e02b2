import { utf8ToBytes } from "../random/hash";
import { outcomeText } from "./canonical-order";
import { jsonTexts, type PackedTexts, packTexts } from "./packed-texts";
import type { PoolTable } from "./pool-table";

const CHUNK_BYTES = 1 << 16;

/** The table's canonical text (see `canonicalTable`) in pieces; a piece is overwritten once the next is asked for. */
export function* canonicalText(table: PoolTable, order: Int32Array): Generator<Uint8Array> {
  const { columns, region, box, cleanTake } = table;
  const { labels, outcome, lost } = columns;
  const arms = members('{"arm":', labels.arm);
  const availabilities = members(',"available":', labels.availability, "");
  const bands = members(',"band":', labels.band);
  const boxes = box && jsonTexts(box.texts);
  const cleanTakes = packed([',"cleanTake":null', ',"cleanTake":false', ',"cleanTake":true']);
  const growers = members(',"grower":', labels.grower);
  const outings = members(',"outing":', labels.outing);
  const regions = members(',"region":', region?.labels ?? []);
  const [beforeBox, noBox, beforeOutcome, noRegion] = [
    ',"box":',
    ',"box":null',
    ',"outcome":',
    ',"region":null',
  ].map(utf8ToBytes) as [Uint8Array, Uint8Array, Uint8Array, Uint8Array];
  const statuses = packed([',"status":"graded"}\n', ',"status":"lost"}\n']);
  const out = new ByteWriter();
  for (const row of order) {
    if (out.length > CHUNK_BYTES) yield out.take();
    out.add(arms, columns.arm[row]!);
    out.add(availabilities, columns.availability[row]!);
    out.add(bands, columns.band[row]!);
    if (boxes && box.index[row]! >= 0) {
      out.addAll(beforeBox);
      out.add(boxes, box.index[row]!);
    } else out.addAll(noBox);
    out.add(cleanTakes, cleanTake ? cleanTake[row]! + 1 : 0);
    out.add(growers, columns.grower[row]!);
    out.addAll(beforeOutcome);
    out.addNumber(outcome[row]!);
    out.add(outings, columns.outing[row]!);
    if (region && region.index[row]! >= 0) out.add(regions, region.index[row]!);
    else out.addAll(noRegion);
    out.add(statuses, lost[row]!);
  }
  yield out.take();
}

/** A member of the object for each label; nothing for the label `leftOut`. */
function members(before: string, labels: readonly string[], leftOut?: string): PackedTexts {
  return packed(labels.map((label) => (label === leftOut ? "" : before + JSON.stringify(label))));
}

function packed(texts: readonly string[]): PackedTexts {
  return packTexts(texts.map(utf8ToBytes));
}

/** Bytes gathered one after another; copies by hand, as pieces are a few bytes long. */
class ByteWriter {
  #bytes = new Uint8Array(2 * CHUNK_BYTES);
  length = 0;

  /** What was gathered, valid until more is added. */
  take(): Uint8Array {
    const taken = this.#bytes.subarray(0, this.length);
    this.length = 0;
    return taken;
  }

  add({ bytes, ends }: PackedTexts, text: number): void {
    this.#copy(bytes, text === 0 ? 0 : ends[text - 1]!, ends[text]!);
  }

  addAll(bytes: Uint8Array): void {
    this.#copy(bytes, 0, bytes.length);
  }

  addNumber(outcome: number): void {
    if (Math.abs(outcome) === Number.POSITIVE_INFINITY) {
      throw new RangeError(`An outcome is a finite number; got ${outcome}. Leave out what was not measured.`);
    }
    const text = outcomeText(outcome);
    this.#makeRoom(text.length);
    for (let i = 0; i < text.length; i++) this.#bytes[this.length++] = text.charCodeAt(i);
  }

  #copy(from: Uint8Array, start: number, end: number): void {
    this.#makeRoom(end - start);
    const bytes = this.#bytes;
    let at = this.length;
    for (let i = start; i < end; i++) bytes[at++] = from[i]!;
    this.length = at;
  }

  #makeRoom(more: number): void {
    if (this.length + more <= this.#bytes.length) return;
    const larger = new Uint8Array(2 * (this.length + more));
    larger.set(this.#bytes.subarray(0, this.length));
    this.#bytes = larger;
  }
}
