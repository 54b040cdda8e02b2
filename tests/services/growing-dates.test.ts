import { expect, it } from "vitest";
import { datesOf } from "@/lib/services/growing/outing-dates";

const planned = {
  day: "2026-11-28",
  due: { kind: "set-out", positions: [1, 2] },
  fetchDay: null,
  readiness: { meanC: 20, earliestDay: 4, likelyDay: 5 },
} as const;

// University of Hawaiʻi CTAHR BIO-9 (2008): 4 to 5 days near 20 °C.
it("before a set is out, its days are counted from the planned one, over the end of a month too", () => {
  expect(datesOf(planned)).toEqual({
    setOut: "2026-11-28",
    fetch: { from: "2026-12-02", to: "2026-12-03", isFixed: false },
  });
  expect(datesOf({ ...planned, readiness: null }).fetch).toBeNull();
  expect(datesOf({ ...planned, fetchDay: { afterDays: 7, isDrawn: true } }).fetch).toEqual({
    from: "2026-12-05",
    to: "2026-12-05",
    isFixed: true,
  });
});

it("once it is out, only the fetching is left, and then nothing", () => {
  const due = { kind: "fetch", earliest: "2026-12-01", likely: "2026-12-02", positions: [1] } as const;
  expect(datesOf({ ...planned, due })).toEqual({
    setOut: null,
    fetch: { from: "2026-12-01", to: "2026-12-02", isFixed: false },
  });
  expect(datesOf({ ...planned, due: { ...due, earliest: null, likely: null } }).fetch).toBeNull();
  const fixed = { kind: "fetch-on", day: "2026-12-04", positions: [1] } as const;
  expect(datesOf({ ...planned, due: fixed }).fetch).toEqual({
    from: "2026-12-04",
    to: "2026-12-04",
    isFixed: true,
  });
  expect(datesOf({ ...planned, due: { kind: "record", positions: [1] } })).toEqual({
    setOut: null,
    fetch: null,
  });
});
