import { describe, expect, it } from "vitest";
import type { DeskHousehold, DeskSet } from "@/lib/data/lead-desk";
import { fetchDueOn, groupsOf, isOverdue } from "@/lib/services/lead/standing";

const NOW = new Date("2026-06-20T12:00:00Z");

const household = (change: Partial<DeskHousehold> = {}): DeskHousehold => ({
  enrolmentId: "e",
  pseudonym: "K7QF22",
  region: "North",
  joinedAt: NOW,
  hasPlace: true,
  isHere: true,
  ...change,
});

/** Four boxes drawn; the change says what became of them. */
const set = (change: Partial<DeskSet> = {}): DeskSet => ({
  enrolmentId: "e",
  code: "K7Q",
  status: "drawn",
  day: "2026-06-10",
  abandonReason: null,
  boxes: 4,
  setOut: 0,
  waiting: 0,
  unrecorded: 0,
  settled: 0,
  outSince: null,
  monthMeanC: null,
  fetchAfterDays: null,
  ...change,
});

const out = (day: string, change: Partial<DeskSet> = {}) =>
  set({ setOut: 4, waiting: 4, outSince: new Date(`${day}T18:00:00Z`), ...change });

describe("the day waiting boxes should be fetched", () => {
  it("is the drawn one, else the plan's, else by the climate of the place, else two weeks on", () => {
    // 65 degree-days above 5 °C (CTAHR BIO-9, 2008): 15 a day at a mean of 20 °C, so the fifth day.
    expect(fetchDueOn(out("2026-06-10", { fetchAfterDays: 3, monthMeanC: 20 }), 7)).toBe("2026-06-13");
    expect(fetchDueOn(out("2026-06-10", { monthMeanC: 20 }), 7)).toBe("2026-06-17");
    expect(fetchDueOn(out("2026-06-10", { monthMeanC: 20 }), null)).toBe("2026-06-15");
    expect(fetchDueOn(out("2026-06-10", { monthMeanC: 4 }), null)).toBe("2026-06-24");
    expect(fetchDueOn(out("2026-06-10"), null)).toBe("2026-06-24");
  });

  it("doesn't exist for boxes at home, brought back, or given up", () => {
    expect(fetchDueOn(set(), 7)).toBeNull();
    expect(fetchDueOn(out("2026-06-10", { waiting: 0, outSince: null, unrecorded: 4 }), 7)).toBeNull();
    expect(fetchDueOn(out("2026-06-10", { status: "abandoned" }), 7)).toBeNull();
  });

  it("makes a set overdue only once two whole days have gone by after it", () => {
    const due17 = out("2026-06-10");
    expect(isOverdue(due17, 7, new Date("2026-06-19T23:59:00Z"))).toBe(false);
    expect(isOverdue(due17, 7, new Date("2026-06-20T00:00:00Z"))).toBe(true);
  });
});

describe("the groups of a household", () => {
  const groups = (sets: readonly DeskSet[], change: Partial<DeskHousehold> = {}) =>
    groupsOf(household(change), sets, 7, NOW);

  it("say what it waits for", () => {
    expect(groups([], { hasPlace: false })).toEqual(["no-place"]);
    expect(groups([])).toEqual(["not-set-out"]);
    expect(groups([set({ status: "planned" })])).toEqual(["not-set-out"]);
    expect(groups([set()])).toEqual(["not-set-out", "drawn-only"]);
    expect(groups([out("2026-06-19")])).toEqual([]);
    expect(groups([out("2026-06-10")])).toEqual(["overdue"]);
    expect(groups([out("2026-06-10", { waiting: 0, unrecorded: 1, settled: 3 })])).toEqual(["unrecorded"]);
    expect(groups([set({ setOut: 4, settled: 4 })])).toEqual([]);
  });

  it("may be several, over several sets", () => {
    const sets = [out("2026-06-10"), set(), set({ status: "abandoned", abandonReason: "weather" })];
    expect(groups(sets)).toEqual(["drawn-only", "overdue", "gave-up"]);
  });

  it("are none once it has left: it is asked for nothing", () => {
    expect(groups([out("2026-06-10")], { isHere: false })).toEqual([]);
  });
});
