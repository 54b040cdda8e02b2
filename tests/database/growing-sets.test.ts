import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { recordGrade } from "@/lib/services/growing/grades";
import { leaveOutBox, moveDay } from "@/lib/services/growing/outing-change";
import { recordSetReport } from "@/lib/services/growing/outing-report";
import { outingView } from "@/lib/services/growing/outing-view";
import { giveUpOuting, planOuting, replanSet } from "@/lib/services/growing/plan-outing";
import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import type { SetReport } from "@/shared/schemas/box-event";
import type { OutingChange, OutingInput } from "@/shared/schemas/outing";
import {
  drawnOuting,
  grade,
  type Joined,
  joinedGrower,
  ledgerVerdict,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  plan,
  plannedOuting,
  run,
  setOutLast,
} from "./growing-fixture";

const grounds = ownGrounds();
let trial: OpenTrial;
let who: Joined;
beforeAll(async () => {
  const boxLimits = {
    kinds: ["softwood" as const, "bamboo" as const],
    grainDepthCm: { min: 3, max: 6 },
    minSpacingCm: 50,
  };
  trial = await newOpenTrial(grounds.db, 40, { ...DEFAULT_PLAN_CHOICES, boxLimits });
});

const refused = (reason: string) => ({ ok: false, reason });
const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);

const planned = (of: Joined, changes?: Partial<OutingInput>) =>
  plannedOuting(grounds.db, trial, of, 4, changes);

const draw = (of: Joined, outingId: string) =>
  run(grounds.db, (tx) => drawOuting(tx, of.grower, { id: v7(), outingId }));

const drawn = (of: Joined) => drawnOuting(grounds.db, trial, of);

const view = async (of: Joined, id: string) =>
  (await grounds.db.$transaction((tx) => outingView(tx, of.grower, id)))!;

const change = (
  of: Joined,
  { id: outingId, trialId: _trial, ...set }: OutingInput,
  changes: Partial<OutingChange>,
) =>
  run(grounds.db, (tx) =>
    replanSet(tx, of.grower, { id: v7(), outingId, basedOn: 1, ...set, ...changes } as OutingChange),
  );

const move = (of: Joined, outingId: string, day: string, basedOn: number) =>
  run(grounds.db, (tx) => moveDay(tx, of.grower, { id: v7(), outingId, basedOn, day }));

const leaveOut = (of: Joined, outingId: string) =>
  run(grounds.db, (tx) =>
    leaveOutBox(tx, of.grower, { id: v7(), outingId, occurredAt: new Date().toISOString() }),
  );

type Told = SetReport["told"][number];
const told = (boxId: string, kind: Told["kind"], detail: Told["detail"] = null): Told => ({
  id: v7(),
  boxId,
  kind,
  detail,
});
const report = (of: Joined, outingId: string, events: Told[], more: Partial<SetReport> = {}) =>
  run(grounds.db, (tx) =>
    recordSetReport(tx, of.grower, {
      id: v7(),
      outingId,
      occurredAt: new Date().toISOString(),
      told: events,
      standing: null,
      pin: null,
      note: null,
      ...more,
    }),
  );

describe("a planned set", () => {
  beforeAll(async () => {
    who = await joinedGrower(grounds.db, trial);
  });

  it("is refused outside the trial's limits to boxes, on a day that is over, and after the trial's end", async () => {
    const reasonOf = async (changes: Partial<OutingInput>) => {
      const input = { ...plan(trial, who.siteId), ...changes };
      const result = await run(grounds.db, (tx) => planOuting(tx, who.grower, input));
      return result.ok ? "kept" : result.reason;
    };
    expect(await reasonOf({ boxKind: "cardboard" })).toBe("BOX_KIND_OUTSIDE_TRIAL");
    expect(await reasonOf({ grainDepthCm: 6.1 })).toBe("DEPTH_OUTSIDE_TRIAL");
    expect(await reasonOf({ grainDepthCm: 2.9 })).toBe("DEPTH_OUTSIDE_TRIAL");
    expect(await reasonOf({ day: inDays(-2) })).toBe("DAY_IN_PAST");
    expect(await reasonOf({ day: "2027-07-01" })).toBe("DAY_AFTER_TRIAL");
    expect(await reasonOf({ boxKind: "bamboo", grainDepthCm: 6, day: inDays(3) })).toBe("kept");
  });

  it("takes the cover for clear by the box's height where the grower doesn't say", async () => {
    const set = await planned(who, { coverClear: null, innerHeightCm: 9, grainDepthCm: 5 });
    expect((await view(who, set.id)).plan.coverClear).toBe(true);
    const full = await planned(who, { coverClear: null, innerHeightCm: 5, grainDepthCm: 5 });
    expect((await view(who, full.id)).plan.coverClear).toBe(false);
  });

  it("is planned anew with its label code, from the version that was shown, and not by somebody else", async () => {
    const set = await planned(who);
    const stranger = await joinedGrower(grounds.db, trial);
    const boxes = [...set.boxes.slice(0, 2), { id: v7() }];
    const before = await view(who, set.id);
    expect(await change(who, set, { boxes, grainDepthCm: 4, boxKind: "bamboo" })).toMatchObject({ ok: true });
    const after = await view(who, set.id);
    expect(after).toMatchObject({
      code: before.code,
      version: 2,
      plan: { grainDepthCm: 4, boxKind: "bamboo" },
    });
    expect(after.boxes.map(({ id }) => id)).toEqual(boxes.map(({ id }) => id));
    expect(await change(who, set, { grainDepthCm: 5 })).toEqual(refused("CHANGED_MEANWHILE"));
    expect(await change(who, set, { basedOn: 2, grainDepthCm: 7 })).toEqual(refused("DEPTH_OUTSIDE_TRIAL"));
    expect(await change(stranger, set, { basedOn: 2, siteId: stranger.siteId })).toEqual(
      refused("NOT_FOUND"),
    );
    expect(await change(who, set, { basedOn: 2, siteId: stranger.siteId })).toEqual(refused("NOT_FOUND"));
    const taken = { basedOn: 2, boxes: [...boxes, (await planned(stranger)).boxes[0]!] };
    expect(await change(who, set, taken)).toEqual(refused("NOT_FOUND"));
    expect((await view(who, set.id)).boxes).toHaveLength(3);
    expect(await draw(who, set.id)).toMatchObject({ ok: true });
    expect(await change(who, set, { basedOn: 3 })).toEqual(refused("ALREADY_DRAWN"));
  });

  it("and its draw at the same moment end in one order or the other, never in a mixture", async () => {
    for (let round = 0; round < 6; round++) {
      const someone = await joinedGrower(grounds.db, trial);
      const set = await planned(someone);
      const boxes = set.boxes.slice(0, 2);
      const [changed, made] = await Promise.all([change(someone, set, { boxes }), draw(someone, set.id)]);
      const after = await view(someone, set.id);
      const isMixed = after.receipt !== null && after.boxes.some(({ recipe }) => recipe === null);
      expect(isMixed).toBe(false);
      expect(after.boxes).toHaveLength(changed.ok ? 2 : 4);
      expect(made.ok).toBe(after.receipt !== null);
      if (!changed.ok) expect(["CHANGED_MEANWHILE", "ALREADY_DRAWN"]).toContain(changed.reason);
      if (!made.ok) expect(made.reason).toBe("CHANGED_MEANWHILE");
    }
    expect(await ledgerVerdict(grounds.db, trial)).toMatchObject({ ok: true, replayed: true });
  });
});

describe("draws of one household without setting out", () => {
  it("end at four sets in a trial, also when both adults press at once; given-up and set-out sets don't count", async () => {
    const one = await joinedGrower(grounds.db, trial);
    const other = await joinedGrower(grounds.db, trial, one.grower.householdId);
    const sets = [await planned(one), await planned(one), await planned(one), await planned(one)];
    for (const set of sets.slice(0, 3)) expect(await draw(one, set.id)).toMatchObject({ ok: true });
    const theirs = await planned(other);
    const both = await Promise.all([draw(one, sets[3]!.id), draw(other, theirs.id)]);
    expect(both.map(({ ok }) => ok).sort()).toEqual([false, true]);
    expect(both.find(({ ok }) => !ok)).toEqual(refused("TOO_MANY_NOT_SET_OUT"));
    const waiting = (await view(one, sets[3]!.id)).receipt
      ? { of: other, id: theirs.id }
      : { of: one, id: sets[3]!.id };
    expect((await view(waiting.of, waiting.id)).tooManyNotSetOut).toBe(true);

    await setOutLast(grounds.db, sets[0]!.id);
    expect(await draw(waiting.of, waiting.id)).toMatchObject({ ok: true });
    const fifth = await planned(one);
    expect(await draw(one, fifth.id)).toEqual(refused("TOO_MANY_NOT_SET_OUT"));
    const request = { id: v7(), outingId: sets[1]!.id, reason: "no-time", note: null } as const;
    expect(await run(grounds.db, (tx) => giveUpOuting(tx, one.grower, request))).toMatchObject({ ok: true });
    expect(await draw(one, fifth.id)).toMatchObject({ ok: true });
  });

  it("don't count sets of which only what came later was told: fetched, or recorded", async () => {
    const one = await joinedGrower(grounds.db, trial);
    const sets = [await drawn(one), await drawn(one), await drawn(one), await drawn(one)] as const;
    const [next, further] = [await planned(one), await planned(one)];
    const record = grade(sets[0].boxes[0]!.id, 40);
    expect(await run(grounds.db, (tx) => recordGrade(tx, one.grower, record))).toMatchObject({ ok: true });
    expect(await draw(one, next.id)).toMatchObject({ ok: true });
    expect(await draw(one, further.id)).toEqual(refused("TOO_MANY_NOT_SET_OUT"));
    await report(one, sets[1].id, [told(sets[1].boxes[0]!.id, "fetched")]);
    expect(await draw(one, further.id)).toMatchObject({ ok: true });
  });

  it("in another trial are counted apart", async () => {
    const elsewhere = await newOpenTrial(grounds.db);
    const one = await joinedGrower(grounds.db, elsewhere);
    const input = plan(elsewhere, one.siteId);
    expect(await run(grounds.db, (tx) => planOuting(tx, one.grower, input))).toMatchObject({ ok: true });
    expect(await draw(one, input.id)).toMatchObject({ ok: true });
  });
});

describe("a drawn set until it is out", () => {
  beforeAll(async () => {
    who = await joinedGrower(grounds.db, trial);
  });

  it("moves to another day with its draw, not into the past, past the end, or once a box is out", async () => {
    const set = await drawn(who);
    const { receipt, version } = await view(who, set.id);
    expect(await move(who, set.id, inDays(5), version)).toMatchObject({ ok: true });
    const moved = await view(who, set.id);
    expect(moved).toMatchObject({ day: inDays(5), receipt, version: version + 1 });
    expect(await move(who, set.id, inDays(6), version)).toEqual(refused("CHANGED_MEANWHILE"));
    expect(await move(who, set.id, inDays(-2), moved.version)).toEqual(refused("DAY_IN_PAST"));
    expect(await move(who, set.id, "2027-07-01", moved.version)).toEqual(refused("DAY_AFTER_TRIAL"));
    const stranger = await joinedGrower(grounds.db, trial);
    expect(await move(stranger, set.id, inDays(6), moved.version)).toEqual(refused("NOT_FOUND"));
    await setOutLast(grounds.db, set.id);
    expect(await move(who, set.id, inDays(6), moved.version)).toEqual(refused("ALREADY_SET_OUT"));
  });

  it("has been out once a box of it is recorded: neither its day nor its boxes change by what grew", async () => {
    const set = await drawn(who);
    const record = grade(set.boxes[0]!.id, 40);
    expect(await run(grounds.db, (tx) => recordGrade(tx, who.grower, record))).toMatchObject({ ok: true });
    const { version } = await view(who, set.id);
    expect(await move(who, set.id, inDays(5), version)).toEqual(refused("ALREADY_SET_OUT"));
    expect(await leaveOut(who, set.id)).toEqual(refused("ALREADY_SET_OUT"));
  });

  it("with a box too few leaves out the highest numbers, down to two, without any new draw", async () => {
    const set = await drawn(who);
    const draws = await grounds.db.draw.count({ where: { trialId: trial.id } });
    const cooked = set.boxes.map(({ id }) => told(id, "cooked-as-drawn"));
    expect(await report(who, set.id, cooked)).toMatchObject({ ok: true });
    expect(await leaveOut(who, set.id)).toMatchObject({ ok: true, value: { position: 4 } });
    expect(await leaveOut(who, set.id)).toMatchObject({ ok: true, value: { position: 3 } });
    expect(await leaveOut(who, set.id)).toEqual(refused("TOO_FEW_BOXES_LEFT"));
    const after = await view(who, set.id);
    expect(after.boxes.map(({ step }) => step)).toEqual(["set-out", "set-out", "none", "none"]);
    expect(after.boxes[3]!.events.map(({ kind, detail }) => [kind, detail])).toMatchObject([
      ["not-cooked", { reason: "box-short" }],
      ["growth-not-recordable", { reason: "not-cooked" }],
    ]);
    expect(after.due).toMatchObject({ kind: "set-out", positions: [1, 2] });
    expect(await grounds.db.draw.count({ where: { trialId: trial.id } })).toBe(draws);
    expect(await report(who, set.id, [told(set.boxes[0]!.id, "set-out")])).toMatchObject({ ok: true });
    expect(await leaveOut(who, set.id)).toEqual(refused("ALREADY_SET_OUT"));
  });
});

it("nobody can plan so many sets that a trial runs out of label codes", async () => {
  const greedy = await joinedGrower(grounds.db, trial);
  for (let i = 0; i < 30; i++) await planned(greedy);
  const further = plan(trial, greedy.siteId);
  expect(await run(grounds.db, (tx) => planOuting(tx, greedy.grower, further))).toEqual(
    refused("TOO_MANY_REQUESTS"),
  );
  await planned(await joinedGrower(grounds.db, trial)); // others go on
});
