import { expect, it } from "vitest";
import { setCalendar } from "@/lib/ui/print/set-calendar";

const set = {
  id: "019a0000-0000-7000-8000-00000000aaaa",
  code: "K7Q",
  trialTitle: 'Rice, or barley; this "season" (invented)',
  url: "https://grainlot.example/outings/019a0000-0000-7000-8000-00000000aaaa",
  setOut: "2026-11-30",
  fetch: { from: "2026-12-31", to: "2027-01-01", isFixed: false },
};

/** Content lines without folding (RFC 5545, 3.1). */
const linesOf = (text: string) => text.replaceAll("\r\n ", "").replaceAll("\r\n\t", "").split("\r\n");

it("is a calendar of whole days whose end is the day after the last (RFC 5545, 3.6.1)", () => {
  const text = setCalendar(set)!;
  for (const line of text.split("\r\n")) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75); // RFC 5545, 3.1
  const lines = linesOf(text);
  expect(lines[0]).toBe("BEGIN:VCALENDAR");
  expect(lines).toContain("VERSION:2.0");
  expect(lines.filter((line) => line === "BEGIN:VEVENT")).toHaveLength(2);
  expect(lines.filter((line) => line.startsWith("DTSTART") || line.startsWith("DTEND"))).toEqual([
    "DTSTART;VALUE=DATE:20261130",
    "DTEND;VALUE=DATE:20261201",
    "DTSTART;VALUE=DATE:20261231",
    "DTEND;VALUE=DATE:20270102",
  ]);
  expect(lines.filter((line) => line.startsWith("UID:"))).toEqual([
    `UID:set-out-${set.id}@grainlot`,
    `UID:fetch-${set.id}@grainlot`,
  ]);
});

it("escapes what a trial's title may hold (RFC 5545, 3.3.11)", () => {
  const description = linesOf(setCalendar(set)!).find((line) => line.startsWith("DESCRIPTION:"))!;
  expect(description).toContain('Rice\\, or barley\\; this "season" (invented)');
});

it("holds only what is still to come, and is none where nothing is", () => {
  const left = linesOf(setCalendar({ ...set, setOut: null })!);
  expect(left.filter((line) => line.startsWith("SUMMARY:"))).toEqual(["SUMMARY:Fetch boxes K7Q"]);
  expect(setCalendar({ ...set, setOut: null, fetch: null })).toBeNull();
});
