import { describe, expect, it } from "vitest";
import { dayWords, decimal, momentWords, percent, whole } from "@/lib/ui/format";

describe("figures and days in words", () => {
  it("never writes minus nothing, and a true minus before what is below nothing", () => {
    expect(decimal(-0.004, 2)).toBe("0.00");
    expect(decimal(-0.5, 1)).toBe("−0.5");
    expect(decimal(2.999, 2)).toBe("3.00");
  });

  it("keeps a calendar day the day it is, and says the zone of an instant", () => {
    expect(dayWords("2026-01-01")).toBe("1 January 2026");
    expect(momentWords(new Date("2026-03-20T23:30:00+01:00"))).toBe("20 March 2026 at 22:30 UTC");
  });

  it("rounds shares and sets thousands apart", () => {
    expect(percent(0.005)).toBe("1\u00a0%");
    expect(percent(1)).toBe("100\u00a0%");
    expect(whole(4999)).toBe("4,999");
  });
});
