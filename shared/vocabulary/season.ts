export const SEASON_NAMES = ["spring", "summer", "autumn", "winter"] as const;
export type SeasonName = (typeof SEASON_NAMES)[number];

/**
 * A meteorological quarter as it is where it is lived: the year and first month (3, 6, 9 or 12) in which it begins and
 * its name there, as in "2026-09 autumn". December belongs to the January after it. Codes sort by time.
 */
export type SeasonCode = `${number}-${"03" | "06" | "09" | "12"} ${SeasonName}`;

/** The parts of a code; throws on any other text. */
export function readSeason(code: string): {
  readonly year: number;
  readonly month: 3 | 6 | 9 | 12;
  readonly name: SeasonName;
} {
  const parts = /^(\d{4})-(03|06|09|12) (spring|summer|autumn|winter)$/.exec(code);
  if (!parts) throw new RangeError(`"${code}" names no season; one is written like "2026-09 autumn".`);
  return {
    year: Number(parts[1]),
    month: Number(parts[2]) as 3 | 6 | 9 | 12,
    name: parts[3] as SeasonName,
  };
}
