import { type FaultList, shown } from "./faults";
import { SEPARATOR_WORDS, type Separator } from "./record-scanner";

/** The columns a table must and may have. */
export interface Columns<Name extends string> {
  readonly required: readonly Name[];
  readonly optional: readonly Name[];
}

/** Where each known column stands in a record, from 0, and what else the header names. */
export interface Header<Name extends string> {
  readonly width: number;
  readonly places: ReadonlyMap<Name, number>;
  readonly ignored: readonly string[];
}

/**
 * Reads the header line; null after adding what is wrong with it. `separators` are those that occur in it, first
 * the one it was split by.
 */
export function readHeader<Name extends string>(
  { required, optional }: Columns<Name>,
  names: readonly string[],
  line: number,
  faults: FaultList,
  separators: readonly Separator[] = [],
): Header<Name> | null {
  const places = new Map<Name, number>();
  const ignored: string[] = [];
  let doubled = false;
  names.forEach((name, place) => {
    const known = [...required, ...optional].find((column) => column === name);
    if (known === undefined) {
      ignored.push(name);
    } else if (places.has(known)) {
      doubled = true;
      faults.add({
        kind: "column named twice",
        line,
        column: { place: place + 1, name },
        message: `The header already has this name in column ${places.get(known)! + 1}. Rename or remove one.`,
      });
    } else {
      places.set(known, place);
    }
  });
  const missing = required.filter((name) => !places.has(name));
  if (missing.length > 0 && separators.length > 1) {
    const words = separators.map((separator) => SEPARATOR_WORDS[separator]);
    faults.add({
      kind: "mixed separators",
      line,
      message:
        `The header is separated by ${words.join(" and ")}; by ${words[0]} alone it lacks ` +
        `${missing.join(", ")}. Use one separator throughout.`,
    });
  } else if (missing.length > 0) {
    faults.add({
      kind: "column missing",
      line,
      message:
        `The header lacks ${missing.join(", ")}; it reads ${shown(names.join(","))}. The first line must name ` +
        `the columns ${required.join(",")} in any order, separated by commas, semicolons or tabs, in lower case.`,
    });
  }
  return doubled || missing.length > 0 ? null : { width: names.length, places, ignored };
}
