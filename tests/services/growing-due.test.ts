import { describe, expect, it } from "vitest";
import { type BoxStanding, dueOf, readinessIn } from "@/lib/services/growing/due";
import type { BoxEventKind } from "@/shared/vocabulary/box";

const event = (kind: BoxEventKind, at = "2026-11-14T10:00:00Z", offsetMinutes = 0) => ({
  kind,
  occurredAt: new Date(at),
  offsetMinutes,
});
const box = (position: number, graded: boolean, ...events: BoxStanding["events"]): BoxStanding => ({
  position,
  graded,
  events,
});
const year = (meanC: number) => Array(12).fill(meanC);
const due = (
  boxes: BoxStanding[],
  monthlyMeanC: number[] | null = year(20),
  status = "drawn",
  fetchAfterDays: number | null = null,
  pauses: Parameters<typeof dueOf>[0]["pauses"] = [],
) => dueOf({ status, boxes, monthlyMeanC, fetchAfterDays, pauses });

describe("what a set waits for", () => {
  it("is the draw, then the cooking, the setting out, the fetching and the record", () => {
    expect(due([box(1, false)], null, "planned")).toEqual({ kind: "draw" });
    expect(due([box(1, false), box(2, false)])).toEqual({ kind: "cook", positions: [1, 2] });
    expect(due([box(1, false), box(2, false, event("cooked-otherwise"))])).toEqual({
      kind: "set-out",
      positions: [2],
    });
    expect(due([box(1, false, event("set-out")), box(2, false)])).toMatchObject({
      kind: "fetch",
      positions: [1],
    });
    const back = box(2, false, event("set-out"), event("fetched"));
    expect(due([box(1, false, event("set-out")), back])).toEqual({ kind: "record", positions: [2] });
    expect(due([box(1, true), box(2, false, event("growth-not-recordable"))])).toEqual({ kind: "done" });
    expect(due([box(1, false)], null, "abandoned")).toEqual({ kind: "given-up" });
  });

  it("is neither done nor counted from boxes that are back while others stay out", () => {
    const early = box(1, true, event("set-out", "2026-11-14T10:00:00Z"), event("fetched"));
    const later = box(2, false, event("set-out", "2026-11-16T10:00:00Z"));
    // CTAHR BIO-9, as below: 4 to 5 days near 20 °C from its own set-out.
    expect(due([early, later])).toEqual({
      kind: "fetch",
      earliest: "2026-11-20",
      likely: "2026-11-21",
      positions: [2],
    });
  });

  it("is the fetching of a box that was looked into and put back", () => {
    expect(due([box(1, false, event("set-out"), event("looked-in"))])).toMatchObject({ kind: "fetch" });
  });

  it("goes by what was said last of whether growth can be recorded", () => {
    const found = box(1, false, event("set-out"), event("growth-not-recordable"), event("growth-recordable"));
    expect(due([found])).toMatchObject({ kind: "fetch" });
  });

  // University of Hawaiʻi CTAHR BIO-9 (2008): 4 to 5 days near 20 °C.
  it("gives the fetch days by the published rule, counted from the day at the place", () => {
    expect(due([box(1, false, event("set-out"))])).toMatchObject({
      kind: "fetch",
      earliest: "2026-11-18",
      likely: "2026-11-19",
    });
    const lateEvening = event("set-out", "2026-11-14T23:30:00Z", 60);
    expect(due([box(1, false, lateEvening)])).toMatchObject({ earliest: "2026-11-19" });
  });

  it("is the fetch on the day the plan fixes, however warm it is, counted from the first box set out at the place", () => {
    const first = event("set-out", "2026-11-14T23:30:00Z", 60);
    const set = [box(1, false, event("set-out", "2026-11-16T09:00:00Z")), box(2, false, first)];
    for (const temperatures of [year(20), year(4), null]) {
      expect(due(set, temperatures, "drawn", 7)).toMatchObject({ kind: "fetch-on", day: "2026-11-22" });
    }
    const cooked = box(1, false, event("cooked-as-drawn"));
    expect(due([cooked], year(20), "drawn", 7)).toMatchObject({ kind: "set-out" });
  });

  it("waits for the day a trial goes on where its day falls into a pause", () => {
    const pauses = [
      { pausedAt: new Date("2026-11-18T09:00:00Z"), resumedAt: new Date("2026-11-24T09:00:00Z") },
    ];
    const set = [box(1, false, event("set-out"))];
    expect(due(set, year(20), "drawn", 4, pauses)).toMatchObject({ kind: "fetch-on", day: "2026-11-24" });
    expect(due(set, year(20), "drawn", 3, pauses)).toMatchObject({ day: "2026-11-17" });
    expect(due(set, year(20), "drawn", null, pauses)).toMatchObject({
      earliest: "2026-11-24",
      likely: "2026-11-24",
    });
  });

  it("gives no day where it is too cold or the temperatures are not known", () => {
    const none = { kind: "fetch", earliest: null, likely: null };
    expect(due([box(1, false, event("set-out"))], year(4))).toMatchObject(none);
    expect(due([box(1, false, event("set-out"))], null)).toMatchObject(none);
    expect(readinessIn(6, [...year(3).slice(0, 6), 25, ...year(3).slice(0, 5)])).toMatchObject({ meanC: 25 });
  });
});
