import { describe, expect, it } from "vitest";
import type { DeskHousehold, DeskSet } from "@/lib/data/lead-desk";
import { type DueBy, fetchDueOn, groupsOf, isOverdue } from "@/lib/services/lead/standing";

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

const by = (planDays: number | null, pauses: DueBy["pauses"] = []): DueBy => ({ planDays, pauses });
const pause = (from: string, to: string | null) => ({
  pausedAt: new Date(`${from}T09:00:00Z`),
  resumedAt: to === null ? null : new Date(`${to}T09:00:00Z`),
});

describe("the day waiting boxes should be fetched", () => {
  it("is the drawn one, else the plan's, else by the climate of the place, else two weeks on", () => {
    // 65 degree-days above 5 °C (CTAHR BIO-9, 2008): 15 a day at a mean of 20 °C, so the fifth day.
    expect(fetchDueOn(out("2026-06-10", { fetchAfterDays: 3, monthMeanC: 20 }), by(7))).toBe("2026-06-13");
    expect(fetchDueOn(out("2026-06-10", { monthMeanC: 20 }), by(7))).toBe("2026-06-17");
    expect(fetchDueOn(out("2026-06-10", { monthMeanC: 20 }), by(null))).toBe("2026-06-15");
    expect(fetchDueOn(out("2026-06-10", { monthMeanC: 4 }), by(null))).toBe("2026-06-24");
    expect(fetchDueOn(out("2026-06-10"), by(null))).toBe("2026-06-24");
  });

  it("doesn't exist for boxes at home, brought back, or given up", () => {
    expect(fetchDueOn(set(), by(7))).toBeNull();
    expect(fetchDueOn(out("2026-06-10", { waiting: 0, outSince: null, unrecorded: 4 }), by(7))).toBeNull();
    expect(fetchDueOn(out("2026-06-10", { status: "abandoned" }), by(7))).toBeNull();
  });

  it("makes a set overdue only once two whole days have gone by after it", () => {
    const due17 = out("2026-06-10");
    expect(isOverdue(due17, by(7), new Date("2026-06-19T23:59:00Z"))).toBe(false);
    expect(isOverdue(due17, by(7), new Date("2026-06-20T00:00:00Z"))).toBe(true);
  });
});

describe("a pause", () => {
  const due17 = out("2026-06-10");
  const at = (day: string) => new Date(`${day}T09:00:00Z`);

  it("moves a day it covers to the one on which the trial goes on, and no other", () => {
    const moved = (...pauses: DueBy["pauses"]) => fetchDueOn(due17, by(7, pauses));
    expect(moved(pause("2026-06-15", "2026-06-25"))).toBe("2026-06-25");
    expect(moved(pause("2026-06-15", "2026-06-18"), pause("2026-06-18", "2026-06-21"))).toBe("2026-06-21");
    expect(moved(pause("2026-06-11", "2026-06-16"))).toBe("2026-06-17");
    expect(moved(pause("2026-06-18", "2026-06-25"))).toBe("2026-06-17");
    expect(moved(pause("2026-06-15", null))).toBe("2026-06-17");
  });

  it("counts no day as late on which the trial stood still", () => {
    const late = (day: string, ...pauses: DueBy["pauses"]) => isOverdue(due17, by(7, pauses), at(day));
    expect(late("2026-09-01", pause("2026-06-15", null))).toBe(false);
    // Due on the 17th: of the two days that are left for it, one had gone by when the trial stood still.
    const twelveDays = pause("2026-06-19", "2026-07-01");
    expect(late("2026-07-01", twelveDays)).toBe(false);
    expect(late("2026-07-02", twelveDays)).toBe(true);
    const covered = pause("2026-06-15", "2026-06-25");
    expect(late("2026-06-27", covered)).toBe(false);
    expect(late("2026-06-28", covered)).toBe(true);
    expect(late("2026-06-20", pause("2026-06-01", "2026-06-12"))).toBe(true);
  });
});

describe("the groups of a household", () => {
  const groups = (sets: readonly DeskSet[], change: Partial<DeskHousehold> = {}) =>
    groupsOf(household(change), sets, by(7), NOW);

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
