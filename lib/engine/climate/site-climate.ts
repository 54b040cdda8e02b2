import type { KoppenClass } from "@/shared/vocabulary/climate";
import { type NearBoundary, nearBoundaries } from "./boundary";
import { type GridCell, gridCellAt, type KoppenGrid } from "./grid";
import { type KoppenCriteria, koppen, type MonthlyNormals } from "./koppen";
import { type ClimateStation, nearestStation, normalsAtElevation, type Position } from "./nearest";

/** A station further away, horizontally or in height, says too little about a site. */
export const STATION_LIMITS = { distanceKm: 150, heightDifferenceM: 800 } as const;

export interface SitePosition extends Position {
  readonly elevationM: number;
}

/** Station and grid as shipped; see lib/reference. */
export interface ClimateReference {
  readonly stations: readonly ClimateStation[];
  readonly grid: KoppenGrid;
}

/** The nearest station without its normals; the height difference is site minus station, m. */
export interface StationUsed extends SitePosition {
  readonly name: string;
  readonly country: string;
  readonly distanceKm: number;
  readonly heightDifferenceM: number;
}

/** Why the nearest station was not used. */
export type StationNote = "NO_STATION" | "STATION_TOO_FAR" | "STATION_HEIGHT_TOO_DIFFERENT";

/** Codes of the message catalogue; the first says why the grid was used. */
export type ClimateNote = StationNote | "GRID_1951_2000" | "GRID_AS_READ_AS_AW";

interface Classified {
  readonly ok: true;
  readonly koppenClass: KoppenClass;
  readonly criteria: KoppenCriteria;
  readonly normals: MonthlyNormals;
  readonly nearBoundary: readonly NearBoundary[];
}

export interface OwnClimate extends Classified {
  readonly source: "own";
  readonly notes: readonly [];
}

/** `normals` are the station's, moved to the site's elevation. */
export interface StationClimate extends Classified {
  readonly source: "station";
  readonly station: StationUsed;
  readonly notes: readonly [];
}

/** The grid holds classes only: no normals, and whether a boundary is near is unknown (null). */
export interface GridClimate {
  readonly ok: true;
  readonly source: "grid";
  readonly koppenClass: KoppenClass;
  readonly cellCentre: Position;
  /** The station that was too far or too different in height. */
  readonly station: StationUsed | null;
  readonly normals: null;
  readonly nearBoundary: null;
  readonly notes: readonly ClimateNote[];
}

/** No usable station and a grid cell of sea: the grower's own 24 numbers are needed. */
export interface NoClimate {
  readonly ok: false;
  readonly reason: "NO_CLIMATE_HERE";
  readonly remedy: "GIVE_OWN_NORMALS";
  readonly station: StationUsed | null;
  readonly notes: readonly StationNote[];
}

/**
 * The climate class of a site: by the nearest station's normals moved to the site's elevation, or, when that
 * station is more than 150 km or 800 m of height away, by the half-degree grid. Degrees, m, km, °C, mm.
 * @throws RangeError for a position off the globe or an elevation that is no number.
 */
export function siteClimate(
  site: SitePosition,
  { stations, grid }: ClimateReference,
): StationClimate | GridClimate | NoClimate {
  if (!Number.isFinite(site.elevationM)) throw new RangeError("A site's elevation is a number of metres.");
  const cell = gridCellAt(grid, site);
  const nearest = nearestStation(site, stations);
  if (nearest === null) return byGrid(cell, null, ["NO_STATION"]);
  const { station, distanceKm } = nearest;
  const used = describe(site, station, distanceKm);
  const tooFar = distanceKm > STATION_LIMITS.distanceKm;
  const tooDifferent = Math.abs(used.heightDifferenceM) > STATION_LIMITS.heightDifferenceM;
  if (!tooFar && !tooDifferent) {
    const normals = normalsAtElevation(station, site.elevationM);
    return { ...classified(normals), source: "station", station: used, notes: [] };
  }
  const reasons: StationNote[] = [];
  if (tooFar) reasons.push("STATION_TOO_FAR");
  if (tooDifferent) reasons.push("STATION_HEIGHT_TOO_DIFFERENT");
  return byGrid(cell, used, reasons);
}

/**
 * The class by the grower's own 12 monthly means (°C) and 12 precipitation sums (mm), taken as they are.
 * @throws RangeError unless all 24 are finite and no precipitation is negative.
 */
export function classifyOwn(normals: MonthlyNormals): OwnClimate {
  return { ...classified(normals), source: "own", notes: [] };
}

function classified(normals: MonthlyNormals): Classified {
  return { ok: true, ...koppen(normals), normals, nearBoundary: nearBoundaries(normals) };
}

function describe(site: SitePosition, station: ClimateStation, distanceKm: number): StationUsed {
  const { name, country, latitude, longitude, elevationM } = station;
  const heightDifferenceM = site.elevationM - elevationM;
  return { name, country, latitude, longitude, elevationM, distanceKm, heightDifferenceM };
}

function byGrid(
  cell: GridCell | null,
  station: StationUsed | null,
  reasons: readonly StationNote[],
): GridClimate | NoClimate {
  if (cell === null) {
    return { ok: false, reason: "NO_CLIMATE_HERE", remedy: "GIVE_OWN_NORMALS", station, notes: reasons };
  }
  return {
    ok: true,
    source: "grid",
    koppenClass: cell.koppenClass,
    cellCentre: cell.centre,
    station,
    normals: null,
    nearBoundary: null,
    notes: [...reasons, "GRID_1951_2000", ...(cell.readAsAw ? (["GRID_AS_READ_AS_AW"] as const) : [])],
  };
}
