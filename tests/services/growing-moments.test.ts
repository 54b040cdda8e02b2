import { describe, expect, it } from "vitest";
import { earliestToday, momentFault, momentOf } from "@/lib/services/growing/moments";

describe("a moment told by a phone", () => {
  it.each([
    ["2026-11-14T10:00:00+01:00", "2026-11-14T09:00:00.000Z", 60],
    ["2026-11-14T10:00:00-03:30", "2026-11-14T13:30:00.000Z", -210],
    ["2026-11-14T10:00:00Z", "2026-11-14T10:00:00.000Z", 0],
  ])("%s keeps its instant and its offset", (text, instant, offsetMinutes) => {
    const moment = momentOf(text);
    expect(moment.at.toISOString()).toBe(instant);
    expect(moment.offsetMinutes).toBe(offsetMinutes);
  });

  it("may be ten minutes ahead, and after the draw or two days before the day, and no more", () => {
    const day = new Date("2026-11-14T00:00:00Z");
    const now = new Date("2026-11-16T12:00:00Z");
    const fault = (text: string, committedAt: Date | null = null) =>
      momentFault(momentOf(text), { day, committedAt }, now)?.reason ?? null;
    expect(fault("2026-11-16T12:10:00Z")).toBeNull();
    expect(fault("2026-11-16T12:10:01Z")).toBe("MOMENT_IN_FUTURE");
    expect(fault("2026-11-12T00:00:00Z")).toBeNull();
    expect(fault("2026-11-11T23:59:59Z")).toBe("MOMENT_BEFORE_OUTING");
    const drawn = new Date("2026-11-05T08:00:00Z");
    expect(fault("2026-11-05T08:00:00Z", drawn)).toBeNull();
    expect(fault("2026-11-05T07:59:59Z", drawn)).toBe("MOMENT_BEFORE_OUTING");
  });

  it("falls on the earliest day that it may be anywhere", () => {
    expect(earliestToday(new Date("2026-11-14T11:59:59Z"))).toBe("2026-11-13");
    expect(earliestToday(new Date("2026-11-14T12:00:00Z"))).toBe("2026-11-14");
  });
});
