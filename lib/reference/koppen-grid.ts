import type { KoppenGrid } from "@/lib/engine/climate/grid";

interface GridFile {
  readonly res: number;
  readonly row0_lat: number;
  readonly col0_lon: number;
  readonly rows: readonly string[];
}

let loaded: Promise<KoppenGrid> | undefined;

/** The half-degree grid of Köppen classes, 1951–2000. Server side only; read at the first call and kept. */
export function loadKoppenGrid(): Promise<KoppenGrid> {
  loaded ??= import("./koppen-half-degree-1951-2000.json").then(({ default: file }) => {
    const { res, row0_lat, col0_lon, rows } = file as GridFile;
    return { cellDeg: res, southRowLatitude: row0_lat, westColumnLongitude: col0_lon, rows };
  });
  return loaded;
}
