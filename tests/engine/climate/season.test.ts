import { expect, it } from "vitest";
import { seasonOf } from "@/lib/engine/climate/season";
import { readSeason } from "@/shared/vocabulary/season";

const NORTH = 42.3;
const SOUTH = -33.9;

// The meteorological seasons, south of the equator summer from December to February and winter from June to August: common
// practice of weather services, from memory.
it.each([
  ["2026-03-01", NORTH, "2026-03 spring"],
  ["2026-05-31", NORTH, "2026-03 spring"],
  ["2026-06-01", NORTH, "2026-06 summer"],
  ["2026-11-30", NORTH, "2026-09 autumn"],
  ["2026-12-01", NORTH, "2026-12 winter"],
  ["2027-02-28", NORTH, "2026-12 winter"],
  ["2026-01-15", SOUTH, "2025-12 summer"],
  ["2026-04-01", SOUTH, "2026-03 autumn"],
  ["2026-07-01", SOUTH, "2026-06 winter"],
  ["2026-09-01", SOUTH, "2026-09 spring"],
])("%s at latitude %d is in %s", (day, latitude, season) => {
  expect(seasonOf(day, latitude)).toBe(season);
});

it("writes codes that sort by time and can be read again", () => {
  const days = ["2025-12-24", "2026-04-01", "2026-07-01", "2026-10-01", "2026-12-01"];
  const codes = days.map((day) => seasonOf(day, NORTH));
  expect([...codes].sort()).toEqual(codes);
  expect(readSeason(codes[4]!)).toEqual({ year: 2026, month: 12, name: "winter" });
  expect(readSeason(codes[0]!).year).toBe(2025);
});

it("refuses what is no day and what is no season", () => {
  expect(() => seasonOf("2026-13-01", NORTH)).toThrow(/no day/);
  expect(() => seasonOf("1 May 2026", NORTH)).toThrow(/no day/);
  expect(() => readSeason("autumn 2026")).toThrow(/no season/);
});
