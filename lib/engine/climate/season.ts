import { SEASON_NAMES, type SeasonCode } from "@/shared/vocabulary/season";

/**
 * The season of a calendar day (`YYYY-MM-DD`) at a latitude in degrees, by the meteorological quarters Dec–Feb, Mar–May,
 * Jun–Aug and Sep–Nov (common practice), which south of the equator have the names of the opposite ones. A
 * season has the year it begins in: January 2027 in the north is in "2026-12 winter". Near the equator the names
 * say little; the quarters still tell the time of year apart. Throws on a text that is no day.
 */
export function seasonOf(day: string, latitude: number): SeasonCode {
  const parts = /^(\d{4})-(\d{2})-\d{2}$/.exec(day);
  const month = Number(parts?.[2]);
  if (!parts || !(month >= 1 && month <= 12)) throw new RangeError(`"${day}" is no day like 2026-09-30.`);
  const year = Number(parts[1]) - (month < 3 ? 1 : 0);
  const quarter = Math.floor(((month + 9) % 12) / 3);
  const name = SEASON_NAMES[(quarter + (latitude < 0 ? 2 : 0)) % SEASON_NAMES.length]!;
  const begins = (["03", "06", "09", "12"] as const)[quarter]!;
  return `${String(year).padStart(4, "0")}-${begins} ${name}` as SeasonCode;
}
