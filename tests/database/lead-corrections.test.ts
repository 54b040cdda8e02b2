import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { answerCorrection, requestsToMe } from "@/lib/services/growing/corrections";
import { recordGrade } from "@/lib/services/growing/grades";
import { askCorrection, boxView, correctionLists } from "@/lib/services/lead/corrections";
import { type Correction, correctionSchema } from "@/shared/schemas/correction";
import { closeTrial, grade, joinedGrower, type OpenTrial, ownGrounds, run } from "./growing-fixture";
import { drawnSet, ledTrial, newLead, tell } from "./lead-fixture";

const grounds = ownGrounds();
let trial: OpenTrial;
let lead: Actor;
let grower: Actor;
let siteId: string;

beforeAll(async () => {
  ({ trial, lead } = await ledTrial(grounds.db));
  ({ grower, siteId } = await joinedGrower(grounds.db, trial));
});

async function recordedBox(): Promise<{ id: string; code: string }> {
  const { db } = grounds;
  const set = await drawnSet(db, trial, grower, siteId);
  for (const box of set.boxIds) await tell(db, grower, box, "set-out", { hoursAgo: 2 });
  const id = set.boxIds[0]!;
  await run(db, (tx) => recordGrade(tx, grower, { ...grade(id, 40), note: "Smelled of bread" }));
  const { code } = await db.box.findUniqueOrThrow({ where: { id } });
  return { id, code };
}

const ask = (who: Actor, code: string, correction: Partial<Correction> = {}) =>
  run(grounds.db, (tx) =>
    askCorrection(
      tx,
      who,
      {
        trialId: trial.id,
        code,
        correction: correctionSchema.parse({ kind: "grams", words: "", ...correction }),
      },
      new Date(),
    ),
  );
const answer = (who: Actor, requestId: string) =>
  run(grounds.db, (tx) => answerCorrection(tx, who, requestId, new Date()));
const lists = async (page = 1, now = new Date()) => {
  const found = await run(grounds.db, (tx) => correctionLists(tx, lead, { trialId: trial.id, page }, now));
  if (!found.ok) throw new Error(found.reason);
  return found.value;
};

describe("a request for a correction", () => {
  it("stands with its words for whoever set the box out, until they say that the record stands", async () => {
    const { db } = grounds;
    const box = await recordedBox();
    const asked = await ask(lead, box.code, { words: "Is 1200 g right? <b>" });
    if (!asked.ok) throw new Error(asked.reason);
    const { requestId } = asked.value;
    const mine = await requestsToMe(db, grower);
    expect(mine).toMatchObject([
      { id: requestId, boxCode: box.code, kind: "grams", words: "Is 1200 g right? <b>" },
    ]);
    expect(await ask(lead, box.code)).toEqual({ ok: false, reason: "ALREADY_ASKED" });
    const stranger = await joinedGrower(db, trial);
    for (const who of [lead, stranger.grower]) {
      expect(await answer(who, requestId)).toEqual({ ok: false, reason: "NOT_FOUND" });
    }
    expect((await lists()).open.items.map(({ id }) => id)).toContain(requestId);
    const before = await db.grade.findMany({ where: { boxId: box.id } });
    expect(await answer(grower, requestId)).toEqual({ ok: true, value: null });
    expect(await answer(grower, requestId)).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect(await requestsToMe(db, grower)).toEqual([]);
    expect((await lists()).answered.items[0]).toMatchObject({ id: requestId, answer: "stands" });
    expect(await db.grade.findMany({ where: { boxId: box.id } })).toEqual(before);
  });

  it("ends by itself with a further revision, and with an event of that box, and of no other", async () => {
    const { db } = grounds;
    const [first, second, third] = [await recordedBox(), await recordedBox(), await recordedBox()];
    for (const { code } of [first, second, third]) expect(await ask(lead, code)).toMatchObject({ ok: true });
    await run(db, (tx) => recordGrade(tx, grower, grade(first.id, 45, 1)));
    await tell(db, grower, second.id, "animal");
    const codes = (await lists()).open.items.map(({ boxCode }) => boxCode);
    expect(codes).toContain(third.code);
    expect(codes).not.toContain(first.code);
    expect(codes).not.toContain(second.code);
    const answers = await db.correctionRequest.findMany({ where: { boxId: { in: [first.id, second.id] } } });
    expect(answers.map((request) => request.answer)).toEqual(["recorded-anew", "recorded-anew"]);
  });

  it("is mailed once a day, however much is asked", async () => {
    const { db } = grounds;
    const other = await joinedGrower(db, trial);
    const set = await drawnSet(db, trial, other.grower, other.siteId);
    for (const id of set.boxIds) {
      const { code } = await db.box.findUniqueOrThrow({ where: { id } });
      expect(await ask(lead, code, { kind: "no-record" })).toMatchObject({ ok: true });
    }
    const where = { accountId: other.grower.accountId, kind: "correction-asked" };
    expect(await db.mail.count({ where })).toBe(1);
  });

  it("needs own words where its kind says nothing", () => {
    const fault = correctionSchema.safeParse({ kind: "other", words: " " }).error?.issues[0]?.message;
    expect(fault).toBe("correction.words");
    expect(correctionSchema.safeParse({ kind: "grams", words: "x".repeat(501) }).success).toBe(false);
  });

  it("is the lead's only to ask, of a drawn box of that trial, while it is open and somebody is there", async () => {
    const { db } = grounds;
    const box = await recordedBox();
    const other = { ...(await newLead(db)), isAdmin: true };
    for (const who of [other, grower]) {
      expect(await ask(who, box.code)).toEqual({ ok: false, reason: "NOT_FOUND" });
    }
    expect(await ask(lead, "ZZZ-9")).toEqual({ ok: false, reason: "NOT_FOUND" });
    const own = await ledTrial(db);
    const gone = await joinedGrower(db, own.trial);
    const set = await drawnSet(db, own.trial, gone.grower, gone.siteId);
    const { code } = await db.box.findUniqueOrThrow({ where: { id: set.boxIds[0]! } });
    const request = { trialId: own.trial.id, code, correction: { kind: "grams", words: "" } } as const;
    const askOwn = () => run(db, (tx) => askCorrection(tx, own.lead, request, new Date()));
    await db.account.delete({ where: { id: gone.grower.accountId } });
    expect(await askOwn()).toEqual({ ok: false, reason: "NOBODY_TO_ASK" });
    await closeTrial(db, own.trial);
    expect(await askOwn()).toEqual({ ok: false, reason: "TRIAL_NOT_OPEN" });
  });
});

describe("a box's record as the lead reads it", () => {
  it("has events, readings and own words, and no recipe; words about the cooking wait for the close", async () => {
    const { db } = grounds;
    const own = await ledTrial(db);
    const home = await joinedGrower(db, own.trial);
    const set = await drawnSet(db, own.trial, home.grower, home.siteId);
    const [id] = set.boxIds;
    await tell(db, home.grower, id!, "cooked-otherwise", { note: "Took spelt instead", hoursAgo: 2 });
    await tell(db, home.grower, id!, "animal", { note: "A badger", hoursAgo: 1 });
    const { code } = await db.box.findUniqueOrThrow({ where: { id } });
    const look = () => run(db, (tx) => boxView(tx, own.lead, { trialId: own.trial.id, code }));
    const open = await look();
    if (!open.ok) throw new Error(open.reason);
    expect(open.value.box.words.map(({ text }) => text)).toEqual(["A badger"]);
    const arms = await db.arm.findMany({ where: { trialId: own.trial.id } });
    const shown = JSON.stringify(open.value.box);
    for (const { id: armId, variantId } of arms) {
      expect(shown).not.toContain(armId);
      expect(shown).not.toContain(variantId);
    }
    expect(shown).not.toMatch(/arm|spelt|Beech wood/i);
    await closeTrial(db, own.trial);
    const closed = await look();
    if (!closed.ok) throw new Error(closed.reason);
    expect(closed.value.box.words.map(({ text }) => text)).toEqual(["Took spelt instead", "A badger"]);
    const stranger = await newLead(db);
    expect(await run(db, (tx) => boxView(tx, stranger, { trialId: own.trial.id, code }))).toEqual({
      ok: false,
      reason: "NOT_FOUND",
    });
  });
});

describe("records that look odd", () => {
  /** A box of a new set with one reading, changed as told; its code. */
  async function oddBox(change: object): Promise<string> {
    const { db } = grounds;
    const set = await drawnSet(db, trial, grower, siteId);
    for (const box of set.boxIds) await tell(db, grower, box, "set-out", { hoursAgo: 2 });
    const input = grade(set.boxIds[0]!, 40);
    const measures = { ...input.measures, ...change };
    const kept = await run(db, (tx) => recordGrade(tx, grower, { ...input, measures }));
    if (!kept.ok) throw new Error(kept.reason);
    return (await db.box.findUniqueOrThrow({ where: { id: set.boxIds[0]! } })).code;
  }
  const signsOf = async (code: string, now = new Date()) =>
    (await lists(1, now)).odd.items.filter(({ boxCode }) => boxCode === code).map(({ sign }) => sign);

  it.each([
    // A box of 30 × 20 × 5 cm holds 3 litres: 3.9 kg at 1.3 g/mL.
    ["too-heavy", { totalMassG: { value: 3901 } }, { totalMassG: { value: 3899 } }],
    [
      "usable-without-growth",
      { coverPercent: { value: 0 }, usableMassG: { value: 5 }, totalMassG: { value: 900 } },
      { coverPercent: { value: 0 }, usableMassG: { value: 0 }, totalMassG: { value: 900 } },
    ],
    ["picture-differs", { coverClass: { value: 4 } }, { coverClass: { value: 3 } }],
    [
      "over-hundred",
      { coverPercent: { value: 99 } },
      { coverPercent: { value: 98 }, coverClass: "not_measured" },
    ],
  ])("%s is named, and its neighbour isn't", async (sign, odd, sound) => {
    expect(await signsOf(await oddBox(odd))).toEqual([sign]);
    expect(await signsOf(await oddBox(sound))).toEqual([]);
  });

  it("a box opened four days ago without a record is named, until its grower is asked", async () => {
    const { db } = grounds;
    const set = await drawnSet(db, trial, grower, siteId);
    for (const box of set.boxIds) await tell(db, grower, box, "set-out", { hoursAgo: 2 });
    await tell(db, grower, set.boxIds[0]!, "opened", { hoursAgo: 1 });
    const { code } = await db.box.findUniqueOrThrow({ where: { id: set.boxIds[0]! } });
    const inDays = (days: number) => new Date(Date.now() + days * 24 * 3_600_000);
    expect(await signsOf(code, inDays(2))).toEqual([]);
    expect(await signsOf(code, inDays(4))).toEqual(["not-recorded"]);
    expect(await ask(lead, code, { kind: "no-record" })).toMatchObject({ ok: true });
    expect(await signsOf(code, inDays(4))).toEqual([]);
  });

  it("a box whose times stand in the wrong order is named, unless one was taken back", async () => {
    const { db } = grounds;
    const set = await drawnSet(db, trial, grower, siteId);
    const [id] = set.boxIds;
    const { code } = await db.box.findUniqueOrThrow({ where: { id } });
    const at = (hoursAgo: number) => new Date(Date.now() - hoursAgo * 3_600_000);
    const wrong = v7();
    const row = (eventId: string, kind: string, hoursAgo: number) => ({
      ...{ id: eventId, boxId: id!, growerId: grower.growerId, kind, offsetMinutes: 0 },
      occurredAt: at(hoursAgo),
    });
    // Straight into the table: the service may refuse such an order by itself.
    await db.boxEvent.createMany({ data: [row(v7(), "set-out", 3), row(wrong, "fetched", 4)] });
    expect(await signsOf(code)).toEqual(["times-order"]);
    await db.boxEvent.create({ data: { ...row(v7(), "withdrawal", 0), withdrawsId: wrong } });
    expect(await signsOf(code)).toEqual([]);
  });
});
