import type { ClimateSource, KoppenClass } from "@/shared/vocabulary/climate";

/** How a site's climate class was found, as it is kept with the place: what the owner is shown. */
export interface SiteClimateRecord {
  readonly source: ClimateSource;
  /** The nearest station, also when the grid decided; height difference is site minus station. */
  readonly station: {
    readonly name: string;
    readonly country: string;
    readonly distanceKm: number;
    readonly heightDifferenceM: number;
  } | null;
  /** Classes that ±1 °C or ±10 % rain would give; null where that is unknown. */
  readonly nearBoundary: readonly { readonly change: string; readonly koppenClass: KoppenClass }[] | null;
  /** Mean temperature of each month at the site's elevation, °C, January first; null where unknown. */
  readonly monthlyMeanC: readonly number[] | null;
  readonly notes: readonly string[];
}
