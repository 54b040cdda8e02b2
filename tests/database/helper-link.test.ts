import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import type { Actor, Helper } from "@/lib/auth/actor";
import { helperOfToken } from "@/lib/auth/helper";
import { recordBoxEvent } from "@/lib/services/growing/box-events";
import { boxRecord } from "@/lib/services/growing/box-record";
import { recordGrade } from "@/lib/services/growing/grades";
import {
  HELPER_LINK_DAYS,
  helperLinkOf,
  makeHelperLink,
  takeBackHelperLink,
} from "@/lib/services/growing/helper-link";
import { helperView } from "@/lib/services/growing/helper-view";
import { recordSetReport } from "@/lib/services/growing/outing-report";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { boxEventSchema, setReportSchema } from "@/shared/schemas/box-event";
import {
  grade,
  joinedGrower,
  newGrower,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  plan,
  run,
} from "./growing-fixture";
import { type DrawnSet, drawnSet, tell } from "./lead-fixture";

const DAY_MS = 24 * 3_600_000;

const grounds = ownGrounds();
let trial: OpenTrial;
let owner: Actor;
let siteId: string;
let set: DrawnSet;
let otherSet: DrawnSet;
beforeAll(async () => {
  trial = await newOpenTrial(grounds.db);
  ({ grower: owner, siteId } = await joinedGrower(grounds.db, trial));
  set = await drawnSet(grounds.db, trial, owner, siteId);
  otherSet = await drawnSet(grounds.db, trial, owner, siteId);
});

async function newLink(): Promise<string> {
  const made = await run(grounds.db, (tx) => makeHelperLink(tx, owner, set.outingId, new Date()));
  if (!made.ok) throw new Error(made.reason);
  return made.value.token;
}

async function helping(): Promise<Helper> {
  const helper = await helperOfToken(grounds.db, await newLink(), new Date());
  if (!helper) throw new Error("A new link must hold.");
  return helper;
}

const eventOf = (boxId: string, more: object = {}) =>
  boxEventSchema.parse({
    ...{ id: v7(), boxId, kind: "animal", occurredAt: new Date().toISOString() },
    ...{ withdrawsId: null, note: null, ...more },
  });

describe("a helper link", () => {
  it("is for a drawn set of one's own, and only its hash is kept", async () => {
    const { db } = grounds;
    const stranger = await newGrower(db, "Stranger");
    const make = (actor: Actor, outingId: string) =>
      run(db, (tx) => makeHelperLink(tx, actor, outingId, new Date()));
    expect(await make(stranger, set.outingId)).toEqual({ ok: false, reason: "NOT_FOUND" });
    const planned = plan(trial, siteId, 2);
    await run(db, (tx) => planOuting(tx, owner, planned));
    expect(await make(owner, planned.id)).toEqual({ ok: false, reason: "NOT_DRAWN_YET" });
    const token = await newLink();
    const [row] = await db.$queryRaw<{ row: string }[]>`
      SELECT string_agg(row_to_json(l)::text, ' ') AS row FROM helper_link l`;
    expect(row?.row).not.toContain(token);
    expect(token.length).toBeGreaterThanOrEqual(43); // 256 bits in base64url
  });

  it("ends when it has run out, is taken back, is made anew, or its owner may not sign in", async () => {
    const { db } = grounds;
    const holds = async (token: string, at = new Date()) => (await helperOfToken(db, token, at)) !== null;
    const first = await newLink();
    expect(await holds(first)).toBe(true);
    expect(await holds(first, new Date(Date.now() + (HELPER_LINK_DAYS - 0.01) * DAY_MS))).toBe(true);
    expect(await holds(first, new Date(Date.now() + HELPER_LINK_DAYS * DAY_MS + 1000))).toBe(false);
    const second = await newLink();
    expect([await holds(first), await holds(second)]).toEqual([false, true]);
    const takeBack = (actor: Actor) =>
      run(db, (tx) => takeBackHelperLink(tx, actor, set.outingId, new Date()));
    expect(await takeBack(await newGrower(db, "Stranger"))).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect(await holds(second)).toBe(true);
    expect(await takeBack(owner)).toMatchObject({ ok: true });
    expect(await holds(second)).toBe(false);
    expect(await helperLinkOf(db, owner, set.outingId, new Date())).toBeNull();
    const third = await newLink();
    const { accountId: id } = owner;
    await db.account.update({ where: { id }, data: { disabledAt: new Date() } });
    expect(await holds(third)).toBe(false);
    await db.account.update({ where: { id }, data: { disabledAt: null } });
    expect(await holds(`${third.slice(0, -1)}${third.endsWith("A") ? "B" : "A"}`)).toBe(false);
  });
});

describe("whoever holds the link", () => {
  it("records in the grower's name, and it shows that a helper did", async () => {
    const { db } = grounds;
    const [boxId] = set.boxIds;
    await tell(db, owner, boxId!, "set-out", { hoursAgo: 5 });
    const helper = await helping();
    const event = eventOf(boxId!, { note: "A badger" });
    expect(await run(db, (tx) => recordBoxEvent(tx, helper, event))).toMatchObject({ ok: true });
    const told = await db.boxEvent.findUniqueOrThrow({ where: { id: event.id } });
    expect(told).toMatchObject({ growerId: owner.growerId, viaHelper: true });
    const note = await db.freeText.findFirstOrThrow({ where: { subjectId: event.id } });
    expect(note.accountId).toBe(owner.accountId);
    const report = setReportSchema.parse({
      ...{ id: v7(), outingId: set.outingId, occurredAt: new Date().toISOString() },
      told: set.boxIds.map((each) => ({ id: v7(), boxId: each, kind: "fetched", detail: null })),
      ...{ standing: null, pin: null, note: "" },
    });
    expect(await run(db, (tx) => recordSetReport(tx, helper, report))).toMatchObject({ ok: true });
    const input = grade(boxId!, 45);
    expect(await run(db, (tx) => recordGrade(tx, helper, input))).toMatchObject({ ok: true });
    const row = await db.grade.findUniqueOrThrow({ where: { id: input.id } });
    expect(row).toMatchObject({ graderId: owner.growerId, viaHelper: true, revision: 1 });
  });

  it("takes back what a helper told, and is shown nothing that the grower did", async () => {
    const { db } = grounds;
    const boxId = set.boxIds[1]!;
    const grown = await tell(db, owner, boxId, "rain-inside");
    const helper = await helping();
    const event = eventOf(boxId, { kind: "moved" });
    await run(db, (tx) => recordBoxEvent(tx, helper, event));
    const told = async () =>
      (await helperView(db, helper))!.boxes.find(({ id }) => id === boxId)!.told.map(({ id }) => id);
    expect(await told()).toContain(event.id);
    expect(await told()).not.toContain(grown);
    const withdrawal = eventOf(boxId, { kind: "withdrawal", withdrawsId: event.id });
    expect(await run(db, (tx) => recordBoxEvent(tx, helper, withdrawal))).toMatchObject({ ok: true });
    expect(await told()).not.toContain(event.id);
    expect(await db.boxEvent.count({ where: { id: event.id } })).toBe(1); // it stays in the history
  });

  it("corrects a helper's record from the version that stands, which is kept, until the grower has corrected it", async () => {
    const { db } = grounds;
    const boxId = set.boxIds[0]!;
    const helper = await helping();
    const correct = (who: Actor | Helper, percent: number, basedOn: number) =>
      run(db, (tx) => recordGrade(tx, who, grade(boxId, percent, basedOn)));
    const seen = async () => (await helperView(db, helper))!.boxes[0]!;
    expect(await seen()).toMatchObject({ growth: 3, isRecordedByHelper: true });
    expect(await correct(helper, 70, 1)).toMatchObject({ ok: true, value: { revision: 2 } });
    expect(await correct(helper, 80, 1)).toEqual({ ok: false, reason: "CHANGED_MEANWHILE" });
    const shown = (await boxRecord(db, helper, set.outingId, 1))!;
    expect(shown.revisions.map(({ revision, measures }) => [revision, measures.coverPercent])).toEqual([
      [2, { value: 70 }],
      [1, { value: 45 }],
    ]);
    expect(await correct(owner, 30, 2)).toMatchObject({ ok: true });
    expect(await correct(helper, 80, 3)).toEqual({ ok: false, reason: "RECORDED_BY_GROWER" });
    expect(await boxRecord(db, helper, set.outingId, 1)).toBeNull();
    expect(await seen()).toMatchObject({ growth: "recorded", isRecordedByHelper: false });
  });

  it("reaches no other set of the grower's", async () => {
    const { db } = grounds;
    const helper = await helping();
    const [boxId] = otherSet.boxIds;
    const refused = { ok: false, reason: "NOT_FOUND" };
    expect(await run(db, (tx) => recordBoxEvent(tx, helper, eventOf(boxId!)))).toEqual(refused);
    expect(await run(db, (tx) => recordGrade(tx, helper, grade(boxId!, 45)))).toEqual(refused);
    const report = setReportSchema.parse({
      ...{ id: v7(), outingId: otherSet.outingId, occurredAt: new Date().toISOString() },
      told: [{ id: v7(), boxId, kind: "fetched", detail: null }],
      ...{ standing: null, pin: null, note: "" },
    });
    expect(await run(db, (tx) => recordSetReport(tx, helper, report))).toEqual(refused);
    expect(await boxRecord(db, helper, otherSet.outingId, 1)).toBeNull();
  });

  it("sends no pin, and takes back or corrects nothing that the grower recorded", async () => {
    const { db } = grounds;
    const helper = await helping();
    const boxId = set.boxIds[1]!;
    const pin = { latitude: 43.51234, longitude: -5.71234, accuracyM: 8, source: "phone" };
    const report = setReportSchema.parse({
      ...{ id: v7(), outingId: set.outingId, occurredAt: new Date().toISOString() },
      told: [{ id: v7(), boxId, kind: "set-out", detail: null }],
      ...{ standing: null, pin: { ...pin, takenAt: new Date().toISOString() }, note: "" },
    });
    const refused = { ok: false, reason: "NOT_FOUND" };
    expect(await run(db, (tx) => recordSetReport(tx, helper, report))).toEqual(refused);
    expect(await db.outingPin.count({ where: { outingId: set.outingId } })).toBe(0);
    const withdrawsId = await tell(db, owner, boxId, "rain-inside");
    const withdrawal = eventOf(boxId, { kind: "withdrawal", withdrawsId });
    expect(await run(db, (tx) => recordBoxEvent(tx, helper, withdrawal))).toEqual(refused);
    await run(db, (tx) => recordGrade(tx, owner, grade(boxId, 20)));
    expect(await run(db, (tx) => recordGrade(tx, helper, grade(boxId, 90, 1)))).toEqual({
      ok: false,
      reason: "RECORDED_BY_GROWER",
    });
    expect(await boxRecord(db, helper, set.outingId, 2)).toBeNull();
  });

  it("sees recipes until the first box is out, and never the place, the trial or the pin", async () => {
    const { db } = grounds;
    const fresh = await drawnSet(db, trial, owner, siteId);
    const made = await run(db, (tx) => makeHelperLink(tx, owner, fresh.outingId, new Date()));
    const helper = await helperOfToken(db, made.ok ? made.value.token : "", new Date());
    const before = await helperView(db, helper!);
    expect(before?.cooking?.boxes.every(({ recipe }) => recipe)).toBe(true);
    await tell(db, owner, fresh.boxIds[0]!, "set-out");
    const after = await helperView(db, helper!);
    expect(after?.cooking).toBeNull();
    const seen = JSON.stringify(after);
    for (const hidden of ["Beech wood", siteId, trial.id, "latitude", "grain", owner.accountId]) {
      expect(seen).not.toContain(hidden);
    }
    expect((await boxRecord(db, helper!, fresh.outingId, 1))?.recipe).toBeNull();
  });
});
