import { codeSchema } from "@/shared/schemas/draw";
import type { OfflineDesign } from "@/shared/schemas/offline-design";
import { readCsvRecords } from "../table/csv-records";
import { FaultList, type Faults, shown } from "../table/faults";
import { type Header, readHeader } from "../table/header";

const COLUMNS = {
  required: ["outing", "household", "group", "region", "boxes", "grains"],
  optional: ["returns"],
} as const;
type ColumnName = (typeof COLUMNS)["required" | "optional"][number];

/** One line of the list: a set of boxes to be drawn for. */
export interface ListedOuting {
  readonly line: number;
  readonly outing: string;
  readonly household: string;
  readonly group: string;
  readonly region: string;
  readonly boxes: number;
  readonly grains: readonly string[];
  /** The household's abandoned outing whose allocation this one receives; null for a draw of its own. */
  readonly returns: string | null;
}

export type ReadOutings =
  | { readonly ok: true; readonly outings: readonly ListedOuting[]; readonly ignored: readonly string[] }
  | { readonly ok: false; readonly faults: Faults };

/** Reads the outings to draw for: all of them, or everything that is wrong with the list. */
export async function readOutings(path: string, design: OfflineDesign): Promise<ReadOutings> {
  const faults = new FaultList();
  const found: { header?: Header<ColumnName>; readonly outings: ListedOuting[] } = { outings: [] };
  await readCsvRecords(path, faults, (record, line) => {
    if (!found.header) {
      found.header = readHeader(COLUMNS, record, line, faults) ?? undefined;
      return found.header !== undefined;
    }
    const outing = new OutingLine(found.header, design, faults, record, line).read();
    if (outing) found.outings.push(outing);
    return true;
  });
  addRepeated(found.outings, faults);
  return faults.isEmpty
    ? { ok: true, outings: found.outings, ignored: found.header?.ignored ?? [] }
    : { ok: false, faults };
}

function addRepeated(outings: readonly ListedOuting[], faults: FaultList): void {
  const lines = new Map<string, number>();
  for (const { outing, line } of outings) {
    const first = lines.get(outing);
    if (first === undefined) lines.set(outing, line);
    else {
      const message = `Outing ${shown(outing)} already stands in line ${first}. A set of boxes is drawn for once.`;
      faults.add({ kind: "outings that occur twice", line, message });
    }
  }
}

/** One record on its way to an outing; whatever is wrong with it becomes a fault. */
class OutingLine {
  #sound = true;

  constructor(
    private readonly header: Header<ColumnName>,
    private readonly design: OfflineDesign,
    private readonly faults: FaultList,
    private readonly record: readonly string[],
    private readonly line: number,
  ) {}

  read(): ListedOuting | null {
    const { width } = this.header;
    if (this.record.length !== width) {
      const message = `The line has ${this.record.length} fields, the header ${width}. Grains are separated by blanks.`;
      this.faults.add({ kind: "lines with too few or too many fields", line: this.line, message });
      return null;
    }
    const outing: ListedOuting = {
      line: this.line,
      outing: this.#code("outing"),
      household: this.#code("household"),
      group: this.#group(),
      region: this.#code("region"),
      boxes: this.#boxes(),
      grains: this.#grains(),
      returns: this.#value("returns") === "" ? null : this.#code("returns"),
    };
    return this.#sound ? outing : null;
  }

  #value(name: ColumnName): string {
    const place = this.header.places.get(name);
    return place === undefined ? "" : this.record[place]!;
  }

  #add(kind: string, name: ColumnName, message: string): void {
    this.#sound = false;
    const place = this.header.places.get(name)! + 1;
    this.faults.add({ kind, line: this.line, column: { place, name }, message });
  }

  #code(name: ColumnName): string {
    const code = this.#value(name);
    if (codeSchema.safeParse(code).success) return code;
    const message =
      `${shown(code)} is no code. Use letters, digits, dot, dash and underscore, at most 40; the ledger becomes ` +
      "public, so give pseudonyms, not names.";
    this.#add("fields that are no codes", name, message);
    return code;
  }

  #group(): string {
    const group = this.#value("group");
    const { climateGroups } = this.design;
    if (!climateGroups.includes(group)) {
      const message = `${shown(group)} is no climate group of the design. It has ${climateGroups.join(", ")}.`;
      this.#add("unknown climate groups", "group", message);
    }
    return group;
  }

  #boxes(): number {
    const text = this.#value("boxes");
    const { min, max } = this.design.boxesPerSet;
    const boxes = /^\d{1,3}$/.test(text) ? Number(text) : Number.NaN;
    if (!(boxes >= min && boxes <= max)) {
      const range = min === max ? `exactly ${min}` : `${min} to ${max}`;
      this.#add(
        "box numbers outside the design",
        "boxes",
        `The design allows ${range} boxes; got ${shown(text)}.`,
      );
    }
    return boxes;
  }

  #grains(): readonly string[] {
    const grains = [
      ...new Set(
        this.#value("grains")
          .split(/[\s;]+/)
          .filter(Boolean),
      ),
    ];
    const known = [...new Set(this.design.arms.map(({ grain }) => grain))];
    const unknown = grains.filter((grain) => !known.includes(grain));
    if (grains.length === 0) {
      const message = `No grain is at hand. List them separated by blanks; the design uses ${known.join(", ")}.`;
      this.#add("no grain at hand", "grains", message);
    } else if (unknown.length > 0) {
      const message =
        `No recipe of the design uses ${unknown.map(shown).join(", ")}. Leave it out or correct it; the design ` +
        `uses ${known.join(", ")}.`;
      this.#add("unknown grains", "grains", message);
    }
    return grains;
  }
}
