import { decimal, type MonthlyNormals } from "./koppen";

/** Degrees north and east. */
export interface Position {
  readonly latitude: number;
  readonly longitude: number;
}

/** A weather station with all its 24 normals. */
export interface ClimateStation extends Position, MonthlyNormals {
  readonly name: string;
  readonly country: string;
  readonly elevationM: number;
}

/** Mean radius of the Earth, km (IUGG). */
const EARTH_RADIUS_KM = 6371.0088;

/** Fall of temperature with height, K per km: the International Standard Atmosphere, ISO 2533. */
const LAPSE_K_PER_KM = 6.5;

/** Great-circle distance in km on a sphere of the Earth's mean radius (haversine form). */
export function greatCircleKm(a: Position, b: Position): number {
  const rad = Math.PI / 180;
  const halfLatitude = Math.sin(((b.latitude - a.latitude) * rad) / 2);
  const halfLongitude = Math.sin(((b.longitude - a.longitude) * rad) / 2);
  const h = halfLatitude ** 2 + Math.cos(a.latitude * rad) * Math.cos(b.latitude * rad) * halfLongitude ** 2;
  return 2 * EARTH_RADIUS_KM * Math.asin(Math.sqrt(Math.min(1, h)));
}

/** The station at the least great-circle distance (the first of equals), or null when there are none. */
export function nearestStation(
  place: Position,
  stations: readonly ClimateStation[],
): { readonly station: ClimateStation; readonly distanceKm: number } | null {
  let nearest: { station: ClimateStation; distanceKm: number } | null = null;
  for (const station of stations) {
    const distanceKm = greatCircleKm(place, station);
    if (nearest === null || distanceKm < nearest.distanceKm) nearest = { station, distanceKm };
  }
  return nearest;
}

/** A station's normals moved to another elevation: 6.5 K colder per km up, precipitation unchanged. */
export function normalsAtElevation(station: ClimateStation, elevationM: number): MonthlyNormals {
  const coolerK = (LAPSE_K_PER_KM * (elevationM - station.elevationM)) / 1000;
  return {
    monthlyMeanC: station.monthlyMeanC.map((t) => decimal(t - coolerK)),
    monthlyRainMm: station.monthlyRainMm,
  };
}
