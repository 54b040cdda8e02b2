import { type FaultList, shown } from "../table/faults";
import type { Header } from "../table/header";
import { NO_FIELD, type RecordScanner } from "../table/record-scanner";
import type { ByteLabels } from "./byte-labels";

export const POOL_COLUMNS = {
  required: ["grower", "outing", "band", "arm", "outcome", "status"],
  optional: ["box", "available", "region"],
} as const;
export type PoolColumn = (typeof POOL_COLUMNS)["required" | "optional"][number];

/** The current record's fields by column; a column that the table lacks is empty. */
export class Fields {
  /** The line the record begins in. */
  line = 0;
  bytes: Buffer = Buffer.alloc(0);
  #start = new Int32Array(NO_FIELD + 1);
  #end = new Int32Array(NO_FIELD + 1);
  readonly #places: Readonly<Record<PoolColumn, number>>;

  constructor(
    { places }: Header<PoolColumn>,
    private readonly faults: FaultList,
  ) {
    const columns = [...POOL_COLUMNS.required, ...POOL_COLUMNS.optional];
    const entries = columns.map((name) => [name, places.get(name) ?? NO_FIELD]);
    this.#places = Object.fromEntries(entries) as Record<PoolColumn, number>;
  }

  /** Moves on to a record of the header's width. */
  take(bytes: Buffer, { start, end }: RecordScanner, line: number): void {
    this.bytes = bytes;
    this.#start = start;
    this.#end = end;
    this.line = line;
  }

  start(name: PoolColumn): number {
    return this.#start[this.#places[name]]!;
  }

  end(name: PoolColumn): number {
    return this.#end[this.#places[name]]!;
  }

  isEmpty(name: PoolColumn): boolean {
    return this.start(name) === this.end(name);
  }

  is(name: PoolColumn, word: Buffer): boolean {
    const start = this.start(name);
    if (this.end(name) - start !== word.length) return false;
    for (let i = 0; i < word.length; i++) if (this.bytes[start + i] !== word[i]) return false;
    return true;
  }

  /** The field's number among the column's labels. */
  numberIn(labels: Pick<ByteLabels, "numberOf">, name: PoolColumn): number {
    return labels.numberOf(this.bytes, this.start(name), this.end(name));
  }

  /** Adds a fault of this field; the message is given the field as it can be shown. */
  refuse(kind: string, name: PoolColumn, message: (fieldShown: string) => string): void {
    this.faults.add({
      kind,
      line: this.line,
      column: { place: this.#places[name] + 1, name },
      message: () => message(shown(this.bytes.toString("utf8", this.start(name), this.end(name)))),
    });
  }
}
