import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { recordBoxEvent } from "@/lib/services/growing/box-events";
import { recordGrade } from "@/lib/services/growing/grades";
import { joinTrial } from "@/lib/services/growing/join";
import { registerSite } from "@/lib/services/growing/sites";
import {
  closeTrial,
  coastSite,
  drawnOuting,
  enrolment,
  grade,
  newGrower,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  plannedOuting,
  run,
  setOutLast,
} from "./growing-fixture";

const grounds = ownGrounds();
let trial: OpenTrial;
let owner: Actor;
let stranger: Actor;

beforeAll(async () => {
  trial = await newOpenTrial(grounds.db);
  [owner, stranger] = [await newGrower(grounds.db, "Owner"), await newGrower(grounds.db, "Stranger")];
  for (const grower of [owner, stranger]) {
    expect((await run(grounds.db, (tx) => joinTrial(tx, grower, enrolment(trial)))).ok).toBe(true);
  }
});

/** Two boxes of a set of three, whose third is out if it is drawn. */
async function newSet({ drawn }: { drawn: boolean }): Promise<string[]> {
  const { db } = grounds;
  const site = coastSite();
  await run(db, (tx) => registerSite(tx, owner, site));
  const set = await (drawn ? drawnOuting : plannedOuting)(db, trial, { grower: owner, siteId: site.id }, 3);
  if (drawn) await setOutLast(db, set.id);
  return set.boxes.slice(0, 2).map(({ id }) => id);
}

const inHours = (hours: number) => new Date(Date.now() + hours * 3_600_000).toISOString();
const event = (boxId: string, changes: object = {}) => ({
  id: v7(),
  boxId,
  kind: "set-out" as const,
  occurredAt: inHours(-1),
  withdrawsId: null,
  note: null,
  ...changes,
});
const tell = (grower: Actor, input: ReturnType<typeof event>) =>
  run(grounds.db, (tx) => recordBoxEvent(tx, grower, input));
const record = (grower: Actor, input: ReturnType<typeof grade>) =>
  run(grounds.db, (tx) => recordGrade(tx, grower, input));

describe("what happened to a box", () => {
  it("is kept with the offset of the place, and own words apart from it", async () => {
    const { db } = grounds;
    const [box] = await newSet({ drawn: true });
    const occurredAt = `${new Date(Date.now() + 3_600_000).toISOString().slice(0, 19)}+01:00`;
    const told = event(box!, { kind: "animal", occurredAt, note: "A badger, I think." });
    expect(await tell(owner, told)).toMatchObject({ ok: true, value: { late: false } });
    const row = await db.boxEvent.findUniqueOrThrow({ where: { id: told.id } });
    expect(row.offsetMinutes).toBe(60);
    expect(Math.abs(row.occurredAt.getTime() - Date.now())).toBeLessThan(5_000);
    const [note] = await db.freeText.findMany({ where: { subjectId: told.id } });
    expect(note).toMatchObject({ accountId: owner.accountId, text: "A badger, I think." });
    expect(await db.poolState.count({ where: { trialId: trial.id } })).toBe(1);
  });

  it("is refused ahead of the clock, long before its day, before the draw, and from a stranger", async () => {
    const [box] = await newSet({ drawn: true });
    const [undrawn] = await newSet({ drawn: false });
    const reason = (expected: string) => ({ ok: false, reason: expected });
    expect((await tell(owner, event(box!, { occurredAt: inHours(0.1) }))).ok).toBe(true);
    expect(await tell(owner, event(box!, { occurredAt: inHours(0.3) }))).toEqual(reason("MOMENT_IN_FUTURE"));
    expect(await tell(owner, event(box!, { occurredAt: inHours(-73) }))).toEqual(
      reason("MOMENT_BEFORE_OUTING"),
    );
    expect(await tell(owner, event(undrawn!))).toEqual(reason("NOT_DRAWN_YET"));
    expect(await tell(stranger, event(box!))).toEqual(reason("NOT_FOUND"));
    expect(await tell(stranger, event(v7()))).toEqual(reason("NOT_FOUND"));
  });

  it("is taken back once, by an event of the same box", async () => {
    const [box, other] = await newSet({ drawn: true });
    const wrong = event(box!, { kind: "animal" });
    await tell(owner, wrong);
    const withdrawal = { kind: "withdrawal", withdrawsId: wrong.id };
    expect(await tell(owner, event(other!, withdrawal))).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect((await tell(owner, event(box!, withdrawal))).ok).toBe(true);
    expect(await tell(owner, event(box!, withdrawal))).toEqual({ ok: false, reason: "ALREADY_WITHDRAWN" });
  });
});

describe("a grade", () => {
  it("gives growth by the ASTM G21 boundaries and whether it is clean, with the reason", async () => {
    const [box, other] = await newSet({ drawn: true });
    // 30 % is the lower edge of class 3 (ASTM G21); 2 % off-colour is within the 10 % of a clean take.
    expect(await record(owner, grade(box!, 30))).toMatchObject({
      ok: true,
      value: { revision: 1, take: { take: 3, from: "PERCENT" }, cleanTake: { cleanTake: true }, late: false },
    });
    const blank = grade(other!, 0);
    const unanswered = {
      ...blank.measures,
      coverPercent: null,
      offColourPercent: { ...blank.measures.offColourPercent, black: null },
    };
    expect(await record(owner, { ...blank, measures: unanswered })).toMatchObject({
      ok: true,
      value: { take: { take: null }, cleanTake: { cleanTake: null } },
    });
  });

  it("is corrected by a further revision from the standing one; an older ground is stale, and all revisions stay", async () => {
    const { db } = grounds;
    const [box] = await newSet({ drawn: true });
    expect((await record(owner, grade(box!, 20))).ok).toBe(true);
    expect(await record(owner, grade(box!, 25))).toEqual({ ok: false, reason: "CHANGED_MEANWHILE" });
    expect(await record(owner, grade(box!, 45, 1))).toMatchObject({ ok: true, value: { revision: 2 } });
    expect(await record(owner, grade(box!, 70, 1))).toEqual({ ok: false, reason: "CHANGED_MEANWHILE" });
    const takes = await db.grade.findMany({ where: { boxId: box! }, orderBy: { revision: "asc" } });
    expect(takes.map(({ take }) => take)).toEqual([2, 3]);
  });

  it("lands once when the same correction comes from two devices at once", async () => {
    const [box] = await newSet({ drawn: true });
    const results = await Promise.all([20, 40, 80].map((cover) => record(owner, grade(box!, cover))));
    expect(results.map((result) => (result.ok ? "kept" : result.reason)).sort()).toEqual([
      "CHANGED_MEANWHILE",
      "CHANGED_MEANWHILE",
      "kept",
    ]);
  });

  it("notes when the box was opened, unless that is on record", async () => {
    const { db } = grounds;
    const [box] = await newSet({ drawn: true });
    await record(owner, { ...grade(box!, 20), openedAt: inHours(-0.5) });
    await record(owner, { ...grade(box!, 30, 1), openedAt: inHours(-0.2) });
    const opened = await db.boxEvent.findMany({ where: { boxId: box!, kind: "opened" } });
    expect(opened).toHaveLength(1);
    expect(Date.now() - opened[0]!.occurredAt.getTime()).toBeGreaterThan(25 * 60_000);
  });

  it("is refused for a box not drawn yet and for another's box", async () => {
    const [box] = await newSet({ drawn: true });
    const [undrawn] = await newSet({ drawn: false });
    expect(await record(owner, grade(undrawn!, 20))).toEqual({ ok: false, reason: "NOT_DRAWN_YET" });
    expect(await record(stranger, grade(box!, 20))).toEqual({ ok: false, reason: "NOT_FOUND" });
    const standing = grade(box!, 20);
    await record(owner, standing);
    const [mine] = await newSet({ drawn: true });
    expect(await record(owner, { ...grade(mine!, 50), id: standing.id })).toEqual({
      ok: false,
      reason: "NOT_FOUND",
    });
  });

  it("is still taken after the trial has closed, and says that it came late", async () => {
    const { db } = grounds;
    const [box] = await newSet({ drawn: true });
    await closeTrial(db, trial);
    expect(await record(owner, grade(box!, 50))).toMatchObject({ ok: true, value: { late: true } });
    expect(await tell(owner, event(box!, { kind: "moved" }))).toMatchObject({
      ok: true,
      value: { late: true },
    });
  });
});
