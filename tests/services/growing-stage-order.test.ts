import { describe, expect, it } from "vitest";
import { stageFault } from "@/lib/services/growing/stage-order";
import type { BoxEventKind } from "@/shared/vocabulary/box";

const told = (kind: BoxEventKind, hour: number) => ({
  kind,
  occurredAt: new Date(Date.UTC(2026, 10, 14, hour)),
});
const fault = (now: ReturnType<typeof told>, ...standing: ReturnType<typeof told>[]) =>
  stageFault(now, standing)?.reason ?? null;

describe("the stages of a box", () => {
  it("may come at the same time, in their order, and with others left untold", () => {
    expect(fault(told("fetched", 10), told("set-out", 10))).toBeNull();
    expect(fault(told("opened", 11), told("set-out", 9), told("fetched", 10))).toBeNull();
    expect(fault(told("opened", 11), told("set-out", 9))).toBeNull();
    expect(fault(told("fetched", 10))).toBeNull();
  });

  it("are told in any order of telling, as long as their times are possible", () => {
    expect(fault(told("set-out", 9), told("opened", 11))).toBeNull();
    expect(fault(told("fetched", 10), told("opened", 11), told("set-out", 9))).toBeNull();
  });

  it.each([
    ["FETCHED_BEFORE_SET_OUT", told("fetched", 8), told("set-out", 9)],
    ["FETCHED_BEFORE_SET_OUT", told("set-out", 11), told("fetched", 10)],
    ["OPENED_BEFORE_SET_OUT", told("opened", 8), told("set-out", 9)],
    ["OPENED_BEFORE_FETCHED", told("opened", 9), told("fetched", 10)],
    ["OPENED_BEFORE_FETCHED", told("fetched", 12), told("opened", 11)],
    ["STAGE_ON_RECORD", told("opened", 12), told("opened", 11)],
  ])("%s is said where they are not", (reason, now, standing) => {
    expect(fault(now, standing)).toBe(reason);
  });

  it("are not mixed up with what else happens to a box", () => {
    expect(fault(told("animal", 1), told("animal", 1), told("set-out", 9))).toBeNull();
  });
});
