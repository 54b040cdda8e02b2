import type { PoolRow } from "@/shared/schemas/pool";
import { type FaultList, shown } from "../table/faults";
import type { Header } from "../table/header";

export const POOL_COLUMNS = {
  required: ["grower", "outing", "band", "arm", "outcome", "status"],
  optional: ["box", "region"],
} as const;
type ColumnName = (typeof POOL_COLUMNS)["required" | "optional"][number];

/** Digits with an optional point and exponent; no thousands separators, no other bases. */
const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

interface SeenOuting {
  readonly line: number;
  readonly grower: string;
  readonly band: string;
  readonly region: string | null;
}

/**
 * Turns records into rows, adding a fault for everything that is wrong; a faulty record gives no row.
 * Remembers outings and boxes, which must not contradict each other over the file.
 */
export class RowReader {
  readonly rows: PoolRow[] = [];
  lostWithOutcome = 0;
  readonly #outings = new Map<string, SeenOuting>();
  readonly #boxLines = new Map<string, number>();

  constructor(
    private readonly header: Header<ColumnName>,
    private readonly faults: FaultList,
  ) {}

  read(record: readonly string[], line: number): void {
    if (record.length !== this.header.width) {
      this.faults.add({
        kind: "lines with too few or too many fields",
        line,
        message:
          `The line has ${record.length} fields, the header ${this.header.width}. Fields are separated by ` +
          "commas; a field with a comma inside must stand in double quotes.",
      });
      return;
    }
    const value = (name: ColumnName): string => {
      const place = this.header.places.get(name);
      return place === undefined ? "" : record[place]!;
    };
    const named = this.#named(value, line);
    const status = this.#status(value("status"), line);
    const outcome = this.#outcome(value("outcome"), line);
    if (!named || status === null || outcome === undefined) return;
    const region = value("region") || null;
    const box = value("box") || null;
    const consistent = this.#outingIsOne({ ...named, region }, line);
    if (!this.#boxIsNew(box, line) || !consistent) return;
    if (status === "lost" && outcome !== null) this.lostWithOutcome++;
    this.rows.push({ ...named, region, box, status, outcome: status === "lost" ? null : outcome });
  }

  #named(
    value: (name: ColumnName) => string,
    line: number,
  ): Pick<PoolRow, "grower" | "outing" | "band" | "arm"> | null {
    let complete = true;
    for (const name of ["grower", "outing", "band", "arm"] as const) {
      if (value(name) !== "") continue;
      complete = false;
      this.#add(
        "empty fields that must not be",
        line,
        name,
        `The field is empty. Every box has its ${name}.`,
      );
    }
    if (!complete) return null;
    return { grower: value("grower"), outing: value("outing"), band: value("band"), arm: value("arm") };
  }

  #status(text: string, line: number): PoolRow["status"] | null {
    if (text === "graded" || text === "lost") return text;
    const message = `${shown(text)} is no status. Write graded for a box that could be looked at, or lost.`;
    this.#add("unknown status", line, "status", message);
    return null;
  }

  /** undefined when the text is no number; null when it is empty. */
  #outcome(text: string, line: number): number | null | undefined {
    if (text === "") return null;
    const outcome = Number(text);
    if (DECIMAL.test(text) && Number.isFinite(outcome)) return outcome;
    const message =
      `${shown(text)} is not a number. Write a number with a decimal point, such as 3 or 2.5, or leave the ` +
      "field empty if the box was not measured.";
    this.#add("outcomes that are not numbers", line, "outcome", message);
    return undefined;
  }

  #outingIsOne(row: Omit<SeenOuting, "line"> & { outing: string }, line: number): boolean {
    const first = this.#outings.get(row.outing);
    if (!first) {
      this.#outings.set(row.outing, { line, grower: row.grower, band: row.band, region: row.region });
      return true;
    }
    let same = true;
    for (const name of ["grower", "band", "region"] as const) {
      if (first[name] === row[name]) continue;
      same = false;
      const message =
        `Outing ${shown(row.outing)} has the ${name} ${shown(row[name] ?? "")} here and ` +
        `${shown(first[name] ?? "")} in line ${first.line}. An outing is one grower at one place on one day: ` +
        "give different outings different names.";
      this.#add("outings that contradict an earlier line", line, name, message);
    }
    return same;
  }

  #boxIsNew(box: string | null, line: number): boolean {
    if (box === null) return true;
    const first = this.#boxLines.get(box);
    if (first === undefined) {
      this.#boxLines.set(box, line);
      return true;
    }
    const message =
      `Box ${shown(box)} already stands in line ${first}. Remove the doubled line; if boxes are numbered anew in ` +
      "every outing, write outing and number together or leave the column out.";
    this.#add("boxes that occur twice", line, "box", message);
    return false;
  }

  #add(kind: string, line: number, name: ColumnName, message: string): void {
    this.faults.add({ kind, line, column: { place: this.header.places.get(name)! + 1, name }, message });
  }
}
