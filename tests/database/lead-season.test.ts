import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { pausesForHousehold } from "@/lib/data/pauses";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { recordGrade } from "@/lib/services/growing/grades";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { closeTrial } from "@/lib/services/lead/close";
import { addLead, stepBack, trialLeads } from "@/lib/services/lead/co-leads";
import { boxView } from "@/lib/services/lead/corrections";
import { deskOf } from "@/lib/services/lead/desk";
import { hideThing, showThing, toldList } from "@/lib/services/lead/hide";
import { pauseTrial, resumeTrial } from "@/lib/services/lead/pause";
import { planHistory } from "@/lib/services/plan-history";
import { grade, joinedGrower, newGrower, ownGrounds, plan, run } from "./growing-fixture";
import { drawnSet, ledTrial, newLead, tell } from "./lead-fixture";

const grounds = ownGrounds();

const addressOf = async (actor: Actor) =>
  (await grounds.db.account.findUniqueOrThrow({ where: { id: actor.accountId } })).email;

describe("a pause", () => {
  it("stops draws and nothing else, stands dated for all to read, and ends when the trial goes on", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const { grower, siteId } = await joinedGrower(db, trial);
    const out = await drawnSet(db, trial, grower, siteId);
    const planned = plan(trial, siteId, 2);
    await run(db, (tx) => planOuting(tx, grower, planned));
    const pause = () =>
      run(db, (tx) => pauseTrial(tx, lead, { trialId: trial.id, reason: "fire" }, new Date()));
    expect(await pause()).toEqual({ ok: true, value: null });
    expect(await pause()).toEqual({ ok: false, reason: "ALREADY_PAUSED" });
    const draw = () => run(db, (tx) => drawOuting(tx, grower, { id: v7(), outingId: planned.id }));
    expect(await draw()).toEqual({ ok: false, reason: "TRIAL_PAUSED" });
    await tell(db, grower, out.boxIds[0]!, "set-out");
    expect(await run(db, (tx) => recordGrade(tx, grower, grade(out.boxIds[0]!, 40)))).toMatchObject({
      ok: true,
    });
    expect(await pausesForHousehold(db, grower.householdId)).toMatchObject([{ reason: "fire" }]);
    const resume = () => run(db, (tx) => resumeTrial(tx, lead, trial.id, new Date()));
    expect(await resume()).toEqual({ ok: true, value: null });
    expect(await resume()).toEqual({ ok: false, reason: "NOT_PAUSED" });
    expect(await draw()).toMatchObject({ ok: true });
    const history = await planHistory(db, trial.id);
    expect(history?.pauses).toMatchObject([{ reason: "fire", resumedAt: expect.any(Date) }]);
    expect(await pausesForHousehold(db, grower.householdId)).toEqual([]);
  });

  it("waits for a draw that has begun, and once it stands no draw comes through", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const homes = await Promise.all(Array.from({ length: 4 }, () => joinedGrower(db, trial)));
    const outings = await Promise.all(
      homes.map(async ({ grower, siteId }) => {
        const outing = plan(trial, siteId, 2);
        await run(db, (tx) => planOuting(tx, grower, outing));
        return { grower, id: outing.id };
      }),
    );
    const draws = outings.map(({ grower, id }) =>
      run(db, (tx) => drawOuting(tx, grower, { id: v7(), outingId: id })),
    );
    await run(db, (tx) => pauseTrial(tx, lead, { trialId: trial.id, reason: "drought" }, new Date()));
    const drawnByThen = await db.draw.count({ where: { trialId: trial.id } });
    const made = (await Promise.all(draws)).filter(({ ok }) => ok).length;
    expect(made).toBe(drawnByThen);
  });

  it("ends when the trial closes, and is the lead's only to make, in an open trial", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const { grower } = await joinedGrower(db, trial);
    const other = { ...(await newLead(db)), isAdmin: true };
    const ask = (who: Actor) =>
      run(db, (tx) => pauseTrial(tx, who, { trialId: trial.id, reason: "other" }, new Date()));
    for (const who of [grower, other]) {
      expect(await ask(who)).toEqual({ ok: false, reason: "NOT_FOUND" });
      const resumed = await run(db, (tx) => resumeTrial(tx, who, trial.id, new Date()));
      expect(resumed).toEqual({ ok: false, reason: "NOT_FOUND" });
    }
    expect(await ask(lead)).toMatchObject({ ok: true });
    expect(await run(db, (tx) => closeTrial(tx, lead, trial.id, new Date()))).toMatchObject({ ok: true });
    expect((await planHistory(db, trial.id))?.pauses[0]?.resumedAt).toBeInstanceOf(Date);
    expect(await ask(lead)).toEqual({ ok: false, reason: "TRIAL_NOT_OPEN" });
  });
});

describe("own words and pictures", () => {
  it("are hidden with a reason their author reads, and shown again", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const { grower, siteId } = await joinedGrower(db, trial);
    const { boxIds, outingId } = await drawnSet(db, trial, grower, siteId);
    await tell(db, grower, boxIds[0]!, "animal", { note: "Gate code 4711 🐗" });
    const words = await db.freeText.findFirstOrThrow({ where: { accountId: grower.accountId } });
    await tell(db, grower, boxIds[0]!, "cooked-as-drawn", { note: "The spelt smelled good" });
    const picture = {
      accountId: grower.accountId,
      sha256: "0".repeat(64),
      bytes: 10,
      widthPx: 4,
      heightPx: 3,
    };
    const ofBox = v7();
    const ofSet = v7();
    await db.photo.create({ data: { ...picture, id: ofBox, boxId: boxIds[0]! } });
    await db.photo.create({ data: { ...picture, id: ofSet, outingId, purpose: "set-out" } });
    const other = { ...(await newLead(db)), isAdmin: true };
    for (const [kind, id] of [
      ["words", words.id],
      ["picture", ofBox],
      ["picture", ofSet],
    ] as const) {
      const asked = { trialId: trial.id, kind, id };
      const hide = (who: Actor) =>
        run(db, (tx) => hideThing(tx, who, { ...asked, reason: "A way into a house" }, new Date()));
      for (const who of [other, grower]) expect(await hide(who)).toEqual({ ok: false, reason: "NOT_FOUND" });
      expect(await hide(lead)).toEqual({ ok: true, value: null });
      expect(await hide(lead)).toEqual({ ok: false, reason: "ALREADY_HIDDEN" });
    }
    const list = await run(db, (tx) => toldList(tx, lead, { trialId: trial.id, page: 1 }));
    if (!list.ok) throw new Error(list.reason);
    expect(new Set(list.value.told.map(({ id }) => id))).toEqual(new Set([words.id, ofBox, ofSet]));
    for (const who of [other, grower]) {
      const refused = await run(db, (tx) => toldList(tx, who, { trialId: trial.id, page: 1 }));
      expect(refused).toEqual({ ok: false, reason: "NOT_FOUND" });
    }
    const { code } = await db.box.findUniqueOrThrow({ where: { id: boxIds[0]! } });
    const look = async () => {
      const found = await run(db, (tx) => boxView(tx, lead, { trialId: trial.id, code }));
      if (!found.ok) throw new Error(found.reason);
      return [...found.value.box.words, ...found.value.box.pictures].map(({ hiddenReason }) => hiddenReason);
    };
    expect(await look()).toEqual(Array(3).fill("A way into a house"));
    const told = await db.mail.findMany({ where: { accountId: grower.accountId, kind: "lead-message" } });
    expect(told).toHaveLength(3);
    expect(told[0]).toMatchObject({ failedStage: "not-mailed", trialId: trial.id });
    expect(told[0]!.body).toContain("A way into a house");
    expect(told[0]!.body).toContain("Gate code 4711 🐗");
    const show = () =>
      run(db, (tx) => showThing(tx, lead, { trialId: trial.id, kind: "words", id: words.id }));
    expect(await show()).toEqual({ ok: true, value: null });
    expect(await show()).toEqual({ ok: false, reason: "NOT_HIDDEN" });
    expect(await look()).toEqual([null, "A way into a house", "A way into a house"]);
    const audit = await db.auditEntry.findMany({ where: { subjectId: words.id } });
    expect(JSON.stringify(audit)).not.toContain("4711");
  });

  it("of a place, of a set given up and of another trial are out of a lead's reach", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const elsewhere = await ledTrial(db);
    const { grower, siteId } = await joinedGrower(db, trial);
    const foreign = await joinedGrower(db, elsewhere.trial);
    const set = await drawnSet(db, elsewhere.trial, foreign.grower, foreign.siteId);
    await tell(db, foreign.grower, set.boxIds[0]!, "animal", { note: "elsewhere" });
    const ofPlace = v7();
    await db.freeText.create({
      data: { id: ofPlace, accountId: grower.accountId, subjectId: siteId, text: "behind the chapel" },
    });
    const ofOther = await db.freeText.findFirstOrThrow({ where: { accountId: foreign.grower.accountId } });
    for (const id of [ofPlace, ofOther.id, v7(), "no id"]) {
      const asked = { trialId: trial.id, kind: "words", id, reason: "no" } as const;
      expect(await run(db, (tx) => hideThing(tx, lead, asked, new Date()))).toEqual({
        ok: false,
        reason: "NOT_FOUND",
      });
    }
  });
});

describe("leads of a trial", () => {
  it("add one another by address, step back, and the last one stays", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const second = await newLead(db, "Second");
    const add = async (who: Actor, email: string) =>
      run(db, (tx) => addLead(tx, who, { trialId: trial.id, email }));
    const leave = (who: Actor) => run(db, (tx) => stepBack(tx, who, trial.id));
    expect(await leave(lead)).toEqual({ ok: false, reason: "LAST_LEAD" });
    const address = (await addressOf(second)).toUpperCase();
    expect(await add(lead, ` ${address} `)).toEqual({ ok: true, value: { name: "Second" } });
    expect(await add(lead, address)).toEqual({ ok: false, reason: "LEADS_ALREADY" });
    expect(await db.mail.count({ where: { accountId: second.accountId, kind: "lead-added" } })).toBe(1);
    expect(await run(db, (tx) => deskOf(tx, second, trial.id, new Date()))).toMatchObject({ ok: true });
    const together = await Promise.all([leave(lead), leave(second)]);
    expect(together.filter(({ ok }) => ok)).toHaveLength(1);
    const leads = await db.trialLead.findMany({ where: { trialId: trial.id } });
    expect(leads).toHaveLength(1);
    const gone = leads[0]!.accountId === lead.accountId ? second : lead;
    expect(await run(db, (tx) => deskOf(tx, gone, trial.id, new Date()))).toEqual({
      ok: false,
      reason: "NOT_FOUND",
    });
    const actions = await db.auditEntry.findMany({ where: { subjectId: trial.id }, orderBy: { at: "asc" } });
    expect(actions.map(({ action }) => action)).toEqual(["lead.added", "lead.stepped-back"]);
  });

  it("don't learn who has an account: an address that may not lead and one of nobody are refused alike", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const grower = await newGrower(db, "Only a grower");
    const disabled = await newLead(db, "Disabled");
    await db.account.update({ where: { id: disabled.accountId }, data: { disabledAt: new Date() } });
    const ask = (email: string) => run(db, (tx) => addLead(tx, lead, { trialId: trial.id, email }));
    for (const email of [await addressOf(grower), await addressOf(disabled), "nobody@example.org", ""]) {
      expect(await ask(email)).toEqual({ ok: false, reason: "NO_SUCH_LEAD" });
    }
    for (let i = 0; i < 20; i++) await ask(`guess${i}@example.org`);
    expect(await ask("again@example.org")).toEqual({ ok: false, reason: "TOO_MANY_REQUESTS" });
  });

  it("are nobody else's to see or change", async () => {
    const { db } = grounds;
    const { trial } = await ledTrial(db);
    const other = { ...(await newLead(db)), isAdmin: true };
    const email = await addressOf(other);
    const refusals = [
      await run(db, (tx) => trialLeads(tx, other, trial.id)),
      await run(db, (tx) => addLead(tx, other, { trialId: trial.id, email })),
      await run(db, (tx) => stepBack(tx, other, trial.id)),
    ];
    expect(refusals).toEqual(refusals.map(() => ({ ok: false, reason: "NOT_FOUND" })));
  });

  it("a lead whose account is disabled doesn't count as the one who stays", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const second = await newLead(db, "Second");
    await db.trialLead.create({ data: { trialId: trial.id, accountId: second.accountId } });
    await db.account.update({ where: { id: second.accountId }, data: { disabledAt: new Date() } });
    expect(await run(db, (tx) => stepBack(tx, lead, trial.id))).toEqual({ ok: false, reason: "LAST_LEAD" });
  });
});
