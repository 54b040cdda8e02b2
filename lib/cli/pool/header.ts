import { type FaultList, shown } from "./faults";

const REQUIRED = ["grower", "outing", "band", "arm", "outcome", "status"] as const;
const OPTIONAL = ["box", "region"] as const;
export type ColumnName = (typeof REQUIRED)[number] | (typeof OPTIONAL)[number];

/** Where each known column stands in a record, from 0, and what else the header names. */
export interface Header {
  readonly width: number;
  readonly places: ReadonlyMap<ColumnName, number>;
  readonly ignored: readonly string[];
}

/** Reads the header line; null after adding what is wrong with it. */
export function readHeader(names: readonly string[], line: number, faults: FaultList): Header | null {
  const places = new Map<ColumnName, number>();
  const ignored: string[] = [];
  let doubled = false;
  names.forEach((name, place) => {
    const known = [...REQUIRED, ...OPTIONAL].find((column) => column === name);
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
  const missing = REQUIRED.filter((name) => !places.has(name));
  if (missing.length > 0) {
    faults.add({
      kind: "column missing",
      line,
      message:
        `The header lacks ${missing.join(", ")}; it reads ${shown(names.join(","))}. The first line must name ` +
        `the columns ${REQUIRED.join(",")} in any order, separated by commas, in lower case.`,
    });
  }
  return doubled || missing.length > 0 ? null : { width: names.length, places, ignored };
}
