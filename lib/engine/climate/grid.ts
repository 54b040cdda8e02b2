import { isKoppenClass, type KoppenClass } from "@/shared/vocabulary/climate";
import type { Position } from "./nearest";

/**
 * A grid of classes. Rows run from south to north, each a run-length text from west to east such as
 * `*58;EF*186;*10`: a class, `*`, how many cells; nothing before the `*` is sea.
 */
export interface KoppenGrid {
  readonly cellDeg: number;
  /** Centre of the south-west cell, degrees. */
  readonly southRowLatitude: number;
  readonly westColumnLongitude: number;
  readonly rows: readonly string[];
}

export interface GridCell {
  readonly koppenClass: KoppenClass;
  /** The grid separates tropical dry summers as `As`; the printed criteria have no such class, so it is read as Aw. */
  readonly readAsAw: boolean;
  readonly centre: Position;
}

/**
 * The land cell a place lies in, or null at sea.
 * @throws RangeError for a position off the globe, Error for a code that is no class (a damaged grid).
 */
export function gridCellAt(grid: KoppenGrid, { latitude, longitude }: Position): GridCell | null {
  if (!(Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180)) {
    throw new RangeError("A position is latitude within ±90° and longitude within ±180°.");
  }
  const south = grid.southRowLatitude - grid.cellDeg / 2;
  const west = grid.westColumnLongitude - grid.cellDeg / 2;
  const columns = Math.round(360 / grid.cellDeg);
  const row = Math.min(Math.floor((latitude - south) / grid.cellDeg), grid.rows.length - 1);
  const column = Math.floor((longitude - west) / grid.cellDeg) % columns;
  const code = codeInRow(grid.rows[row] ?? "", column);
  if (code === "") return null;
  const koppenClass = code === "As" ? "Aw" : code;
  if (!isKoppenClass(koppenClass)) {
    throw new Error(`The climate grid holds "${code}", which is no Köppen class: restore the shipped file.`);
  }
  return {
    koppenClass,
    readAsAw: code === "As",
    centre: {
      latitude: grid.southRowLatitude + row * grid.cellDeg,
      longitude: grid.westColumnLongitude + column * grid.cellDeg,
    },
  };
}

function codeInRow(row: string, column: number): string {
  let end = 0;
  for (const run of row.split(";")) {
    const star = run.lastIndexOf("*");
    end += Number(run.slice(star + 1));
    if (column < end) return run.slice(0, star);
  }
  throw new Error(`A row of the climate grid ends before column ${column}: restore the shipped file.`);
}
