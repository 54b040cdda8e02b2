import type { ClimateGrouping, KoppenClass } from "@/shared/vocabulary/climate";

export type BandResult =
  | { readonly ok: true; readonly band: string }
  | { readonly ok: false; readonly reason: "CLASS_NOT_IN_TRIAL"; readonly koppenClass: KoppenClass };

/** The code of the climate group a class is pooled in; refused when the trial's grouping has no place for it. */
export function bandOf(koppenClass: KoppenClass, grouping: ClimateGrouping): BandResult {
  const group = grouping.find(({ classes }) => classes.includes(koppenClass));
  return group === undefined
    ? { ok: false, reason: "CLASS_NOT_IN_TRIAL", koppenClass }
    : { ok: true, band: group.code };
}
