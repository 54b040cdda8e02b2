import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { withOffset } from "@/lib/ui/moments";

// Rules of the IANA time zone database: Madrid goes from UTC+1 to UTC+2 at 02:00 on 29 March 2026 and back at 03:00 on
// 25 October 2026.
const before = process.env.TZ;
beforeAll(() => {
  process.env.TZ = "Europe/Madrid";
});
afterAll(() => {
  process.env.TZ = before;
});

describe("a typed hour", () => {
  it.each([
    ["2026-01-15T10:30", "2026-01-15T10:30:00+01:00"],
    ["2026-07-15T10:30", "2026-07-15T10:30:00+02:00"],
    ["2026-03-29T01:59", "2026-03-29T01:59:00+01:00"],
    ["2026-03-29T03:00", "2026-03-29T03:00:00+02:00"],
  ])("%s has the offset of its day", (local, text) => {
    expect(withOffset(local)).toBe(text);
  });

  it("that clocks skip is the one after, the same instant by both clocks", () => {
    expect(withOffset("2026-03-29T02:30")).toBe("2026-03-29T03:30:00+02:00");
    expect(new Date(withOffset("2026-03-29T02:30")!).toISOString()).toBe("2026-03-29T01:30:00.000Z");
  });

  it("that clocks go through twice is the first", () => {
    expect(withOffset("2026-10-25T02:30")).toBe("2026-10-25T02:30:00+02:00");
  });

  it("that is none is null", () => {
    expect(withOffset("")).toBeNull();
    expect(withOffset("2026-13-40T99:99")).toBeNull();
  });
});
