import { describe, expect, it } from "vitest";
import { momentFault, momentOf } from "@/lib/services/growing/moments";

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

  it("may be ten minutes ahead and two days before the day, and no more", () => {
    const day = new Date("2026-11-14T00:00:00Z");
    const now = new Date("2026-11-16T12:00:00Z");
    const fault = (text: string) => momentFault(momentOf(text), day, now)?.reason ?? null;
    expect(fault("2026-11-16T12:10:00Z")).toBeNull();
    expect(fault("2026-11-16T12:10:01Z")).toBe("MOMENT_IN_FUTURE");
    expect(fault("2026-11-12T00:00:00Z")).toBeNull();
    expect(fault("2026-11-11T23:59:59Z")).toBe("MOMENT_BEFORE_OUTING");
  });
});
