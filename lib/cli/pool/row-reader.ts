import type { FaultList } from "../table/faults";
import { Unreadable } from "../table/file-lines";
import type { Header } from "../table/header";
import { type RecordScanner, SEPARATOR_WORDS, SEPARATORS, type Separator } from "../table/record-scanner";
import { Fields, type PoolColumn } from "./fields";
import { IntList } from "./int-list";
import { OutcomeReader } from "./outcome-reader";
import { NO_LABEL } from "./outings";
import { RowStore } from "./row-store";

/** Limits that keep a wrong or huge file from taking all memory; trials stay far below them. */
const ROWS_AT_MOST = 5_000_000;
const ARMS_AT_MOST = 200;
const BANDS_AT_MOST = 200;

const GRADED = Buffer.from("graded");
const LOST = Buffer.from("lost");

/**
 * Turns records into stored rows, adding a fault for everything that is wrong; a faulty record gives no row.
 * Outings and boxes must not contradict each other over the file. Throws Unreadable at more rows, arms or bands
 * than are held.
 */
export class RowReader {
  readonly store = new RowStore();
  readonly outcomes: OutcomeReader;
  lostWithOutcome = 0;
  readonly #fields: Fields;
  /** By box code: its line. */
  readonly #boxLine = new IntList();

  constructor(
    private readonly header: Header<PoolColumn>,
    private readonly separator: Separator,
    private readonly faults: FaultList,
  ) {
    this.outcomes = new OutcomeReader(separator === "semicolon");
    this.#fields = new Fields(header, faults);
  }

  read(bytes: Buffer, scanner: RecordScanner, line: number): void {
    const { store } = this;
    if (scanner.fields !== this.header.width) {
      this.#refuseWidth(bytes, scanner, line);
      return;
    }
    this.#fields.take(bytes, scanner, line);
    const named = this.#isNamed();
    const lost = this.#isLost();
    const outcome = this.#outcome();
    if (!named || lost === null || outcome === null) return;
    const outing = store.outings.numberOf(this.#fields);
    const arm = this.#fields.numberIn(store.arms, "arm");
    const box = this.#box();
    if (outing === null || box === null) return;
    if (lost && !Number.isNaN(outcome)) this.lostWithOutcome++;
    store.add(outing, arm, box, lost ? Number.NaN : outcome, lost);
    this.#refuseTooMuch(line);
  }

  #isNamed(): boolean {
    let complete = true;
    for (const name of ["grower", "outing", "band", "arm"] as const) {
      if (!this.#fields.isEmpty(name)) continue;
      complete = false;
      this.#fields.refuse(
        "empty fields that must not be",
        name,
        () => `The field is empty. Every box has its ${name}.`,
      );
    }
    return complete;
  }

  /** null after a fault. */
  #isLost(): boolean | null {
    if (this.#fields.is("status", GRADED)) return false;
    if (this.#fields.is("status", LOST)) return true;
    this.#fields.refuse(
      "unknown status",
      "status",
      (text) => `${text} is no status. Write graded for a box that could be looked at, or lost.`,
    );
    return null;
  }

  /** NaN where the field is empty; null after a fault. */
  #outcome(): number | null {
    const fields = this.#fields;
    if (fields.isEmpty("outcome")) return Number.NaN;
    const outcome = this.outcomes.read(fields.bytes, fields.start("outcome"), fields.end("outcome"));
    if (!Number.isNaN(outcome)) return outcome;
    if (this.outcomes.otherMark) {
      fields.refuse(
        "mixed decimal marks",
        "outcome",
        (text) =>
          `${text} has another decimal mark than an outcome above. Use the point or the comma throughout.`,
      );
    } else {
      const example = this.separator === "semicolon" ? "2.5 or 2,5" : "2.5, with a decimal point";
      fields.refuse(
        "outcomes that are not numbers",
        "outcome",
        (text) =>
          `${text} is not a number. Write a number such as 3 or ${example}, or leave the field empty if the box ` +
          "was not measured.",
      );
    }
    return null;
  }

  /** The box's number, NO_LABEL where it has no code; null after a fault. */
  #box(): number | null {
    if (this.#fields.isEmpty("box")) return NO_LABEL;
    const box = this.#fields.numberIn(this.store.boxes, "box");
    if (box === this.#boxLine.length) {
      this.#boxLine.push(this.#fields.line);
      return box;
    }
    this.#fields.refuse(
      "boxes that occur twice",
      "box",
      (text) =>
        `Box ${text} already stands in line ${this.#boxLine.at(box)}. Remove the doubled line; if boxes are ` +
        "numbered anew in every outing, write outing and number together or leave the column out.",
    );
    return null;
  }

  #refuseWidth(bytes: Buffer, scanner: RecordScanner, line: number): void {
    const { width } = this.header;
    const own = SEPARATOR_WORDS[this.separator];
    const other = otherSeparator(scanner.texts(bytes), width, this.separator);
    if (other) {
      this.faults.add({
        kind: "mixed separators",
        line,
        message: `The line is separated by ${SEPARATOR_WORDS[other]}, the header by ${own}. Use one separator throughout.`,
      });
      return;
    }
    this.faults.add({
      kind: "lines with too few or too many fields",
      line,
      message:
        `The line has ${scanner.fields} fields, the header ${width}. Fields are separated by ${own}; a field that ` +
        "holds one must stand in double quotes.",
    });
  }

  #refuseTooMuch(line: number): void {
    const { rows, arms, outings } = this.store;
    if (rows > ROWS_AT_MOST) {
      throw new Unreadable(
        "tables too large",
        line,
        `The table has more than ${thousands(ROWS_AT_MOST)} rows, more than the command takes. Pool it in parts.`,
      );
    }
    if (arms.size > ARMS_AT_MOST) refuseNames("arm", ARMS_AT_MOST, line);
    if (outings.bands.size > BANDS_AT_MOST) refuseNames("band", BANDS_AT_MOST, line);
  }
}

/** The separator that would give a line of these fields the header's number of fields, if it is another. */
function otherSeparator(fields: readonly string[], width: number, own: Separator): Separator | null {
  const others = (["comma", "semicolon", "tab"] as const).filter((separator) => separator !== own);
  const splits = (separator: Separator): number => {
    const mark = String.fromCharCode(SEPARATORS[separator]);
    return fields.reduce((count, field) => count + field.split(mark).length - 1, 1);
  };
  return others.find((separator) => splits(separator) === width) ?? null;
}

function refuseNames(column: PoolColumn, most: number, line: number): never {
  throw new Unreadable(
    "tables too large",
    line,
    `The column ${column} holds more than ${most} different names, more than the command takes. Is it the right column?`,
  );
}

function thousands(count: number): string {
  return count.toLocaleString("en");
}
