import { v7 } from "uuid";
import { afterAll, describe, expect, it } from "vitest";
import { database } from "@/lib/data/client";
import { leave } from "@/lib/services/accounts/leave";
import { ownDataDocument } from "@/lib/services/accounts/own-data";
import { answerCorrection } from "@/lib/services/growing/corrections";
import { recordGrade } from "@/lib/services/growing/grades";
import { makeHelperLink } from "@/lib/services/growing/helper-link";
import { joinTrial } from "@/lib/services/growing/join";
import { myThings } from "@/lib/services/growing/my-things";
import { changePin } from "@/lib/services/growing/outing-report";
import { registerSite } from "@/lib/services/growing/sites";
import { askCorrection } from "@/lib/services/lead/corrections";
import { sendLetter } from "@/lib/services/lead/letters";
import { pauseTrial } from "@/lib/services/lead/pause";
import { poolBothWays } from "@/lib/services/pool-both-ways";
import { poolTrialNow } from "@/lib/services/pooling";
import { newMember, PASSWORD } from "./accounts-fixture";
import {
  closeTrial,
  coastSite,
  enrolment,
  grade,
  joinedGrower,
  newGrower,
  newOpenTrial,
  ownGrounds,
  run,
  somebodyWaits,
} from "./growing-fixture";
import { drawnSet, ledTrial, tell } from "./lead-fixture";

const grounds = ownGrounds();
afterAll(async () => {
  await database().$disconnect();
});

describe("my things", () => {
  it("tell a newcomer what is missing", async () => {
    const things = await myThings(grounds.db, await newGrower(grounds.db, "New"));
    expect(things).toMatchObject({ hasSets: false, takesPart: false, places: [], sets: [], comparisons: [] });
  });

  it("hold what waits for me, what leads ask of me and write to me, and nobody else's", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const mine = await joinedGrower(db, trial);
    const other = await joinedGrower(db, trial);
    const set = await drawnSet(db, trial, mine.grower, mine.siteId);
    await tell(db, mine.grower, set.boxIds[0]!, "set-out", { hoursAgo: 2 });
    const { code } = await db.box.findUniqueOrThrow({ where: { id: set.boxIds[0]! } });
    const correction = { kind: "times" as const, words: "Was it the 3rd?" };
    const asked = { trialId: trial.id, code, correction };
    expect(await run(db, (tx) => askCorrection(tx, lead, asked, new Date()))).toMatchObject({ ok: true });
    const letter = { id: v7(), audience: "everyone" as const, subject: "Rain", body: "Look <b>soon</b>." };
    expect(
      await run(db, (tx) => sendLetter(tx, lead, { trialId: trial.id, letter }, new Date())),
    ).toMatchObject({ ok: true, value: { people: 2 } });
    const pause = { trialId: trial.id, reason: "fire" as const };
    expect(await run(db, (tx) => pauseTrial(tx, lead, pause, new Date()))).toMatchObject({ ok: true });

    const things = await myThings(db, mine.grower);
    expect(things.sets).toMatchObject([{ id: set.outingId }]);
    expect(things.requests).toMatchObject([{ boxCode: code, words: "Was it the 3rd?", position: 1 }]);
    expect(things.letters).toMatchObject([{ subject: "Rain", body: "Look <b>soon</b>." }]);
    expect(things.pauses).toMatchObject([{ reason: "fire" }]);
    expect(things.places).toMatchObject([{ standing: "said" }]);
    const theirs = await myThings(db, other.grower);
    expect([theirs.sets, theirs.requests]).toEqual([[], []]);

    const [request] = things.requests;
    const answer = (actor: typeof lead) =>
      run(db, (tx) => answerCorrection(tx, actor, request!.id, new Date()));
    expect(await answer(other.grower)).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect(await answer(mine.grower)).toMatchObject({ ok: true });
    expect((await myThings(db, mine.grower)).requests).toEqual([]);
  });
});

describe("my boxes and everyone's", () => {
  it("stay apart until results are out, and then stand beside the published figures", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { grower, siteId } = await joinedGrower(db, trial);
    const set = await drawnSet(db, trial, grower, siteId);
    await run(db, (tx) => recordGrade(tx, grower, grade(set.boxIds[0]!, 70)));
    const [hidden] = (await myThings(db, grower)).comparisons;
    expect(hidden?.results).toEqual({ state: "hidden" });
    const { code } = await db.box.findUniqueOrThrow({ where: { id: set.boxIds[1]! } });
    expect(hidden?.pending).toEqual([code]);

    await closeTrial(db, trial);
    await db.poolState.upsert({
      where: { trialId: trial.id },
      create: { trialId: trial.id, wantedAt: new Date() },
      update: { wantedAt: new Date() },
    });
    await poolTrialNow(trial.id, async (work) => poolBothWays(work));
    const [out] = (await myThings(db, grower)).comparisons;
    if (out?.results.state !== "out") throw new Error(`Results must be out, not ${out?.results.state}.`);
    const recipes = out.results.groups.flatMap((group) => group.recipes);
    expect(recipes.flatMap(({ own }) => own.map(({ take }) => take)).sort()).toEqual([4, null]);
    // One household is fewer than any public figure may rest on (promise of three).
    for (const { everyone } of recipes) expect(everyone).toBeNull();
  });
});

describe("leaving", () => {
  it("takes pins, helper links and letters, gives an undrawn seat back, and keeps a trial from having no lead", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const member = await newMember(db, "Leaver");
    const { actor } = member;
    const site = coastSite();
    await run(db, (tx) => joinTrial(tx, actor, enrolment(trial)));
    await run(db, (tx) => registerSite(tx, actor, site));
    const set = await drawnSet(db, trial, actor, site.id);
    await tell(db, actor, set.boxIds[0]!, "set-out");
    const pin = { latitude: 43.51234, longitude: -5.71234, accuracyM: 8, source: "phone" as const };
    const pinned = { id: v7(), outingId: set.outingId, pin: { ...pin, takenAt: new Date().toISOString() } };
    expect(await run(db, (tx) => changePin(tx, actor, pinned))).toMatchObject({ ok: true });
    await run(db, (tx) => makeHelperLink(tx, actor, set.outingId, new Date()));
    const letter = { id: v7(), audience: "everyone" as const, subject: "Hello all", body: "Dear growers" };
    await run(db, (tx) => sendLetter(tx, lead, { trialId: trial.id, letter }, new Date()));
    const text = JSON.stringify(await ownDataDocument(db, actor, new Date()));
    for (const own of ["43.51234", "Hello all", "Dear growers", '"expiresAt"']) expect(text).toContain(own);
    expect(text).not.toContain("tokenHash");

    const elsewhere = await newOpenTrial(db, 1);
    await run(db, (tx) => joinTrial(tx, actor, enrolment(elsewhere)));
    expect(await run(db, (tx) => leave(tx, actor, PASSWORD))).toMatchObject({ ok: true });
    const of = { where: { accountId: actor.accountId } };
    expect(await db.outingPin.count(of)).toBe(0);
    expect(await db.helperLink.count(of)).toBe(0);
    expect(await db.mail.count(of)).toBe(0);
    const seats = (trialId: string) => db.trialRegion.findFirstOrThrow({ where: { trialId } });
    expect((await seats(elsewhere.id)).seatsTaken).toBe(0);
    expect((await seats(trial.id)).seatsTaken).toBe(1); // its draw stays, and so does the seat

    const leads = await newMember(db, "Only lead");
    await db.trialLead.create({ data: { trialId: elsewhere.id, accountId: leads.actor.accountId } });
    expect(await run(db, (tx) => leave(tx, leads.actor, PASSWORD))).toEqual({
      ok: false,
      reason: "LEADS_ALONE",
    });
  });

  it("takes a lead's letters back from those who got them, and nobody else's", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const { actor: second } = await newMember(db, "Second lead");
    await db.trialLead.create({ data: { trialId: trial.id, accountId: second.accountId } });
    const { grower } = await joinedGrower(db, trial);
    for (const [from, subject] of [[second, "From the second"] as const, [lead, "From the first"] as const]) {
      const letter = { id: v7(), audience: "everyone" as const, subject, body: "Dear growers" };
      const sent = await run(db, (tx) => sendLetter(tx, from, { trialId: trial.id, letter }, new Date()));
      expect(sent).toMatchObject({ ok: true });
    }
    expect(await run(db, (tx) => leave(tx, second, PASSWORD))).toMatchObject({ ok: true });
    expect((await myThings(db, grower)).letters.map(({ subject }) => subject)).toEqual(["From the first"]);
    expect(await db.leadMessage.count({ where: { trialId: trial.id } })).toBe(1);
  });

  it("counts no lead who can't sign in, and lets only one of two leads leave who leave at once", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const { actor: second } = await newMember(db, "Second lead");
    const { actor: third } = await newMember(db, "Third lead");
    const alone = { ok: false, reason: "LEADS_ALONE" };
    await db.account.update({ where: { id: lead.accountId }, data: { disabledAt: new Date() } });
    await db.trialLead.create({ data: { trialId: trial.id, accountId: second.accountId } });
    expect(await run(db, (tx) => leave(tx, second, PASSWORD))).toEqual(alone);
    await db.trialLead.create({ data: { trialId: trial.id, accountId: third.accountId } });
    const both = await Promise.all([second, third].map((who) => run(db, (tx) => leave(tx, who, PASSWORD))));
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both).toContainEqual(alone);
  });

  it("gives the seat of a home back whose two adults leave at once", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db, 1);
    const { actor: first } = await newMember(db, "First adult");
    const { actor } = await newMember(db, "Second adult");
    const second = { ...actor, householdId: first.householdId };
    await db.grower.update({
      where: { id: actor.growerId },
      data: { householdId: first.householdId },
    });
    await run(db, (tx) => joinTrial(tx, first, enrolment(trial)));
    let isDone = false;
    let leavingToo: Promise<unknown> | undefined;
    await db.$transaction(async (tx) => {
      expect(await leave(tx, first, PASSWORD)).toMatchObject({ ok: true });
      leavingToo = run(db, (other) => leave(other, second, PASSWORD)).finally(() => {
        isDone = true;
      });
      await expect.poll(async () => isDone || (await somebodyWaits(tx))).toBe(true);
    });
    expect(await leavingToo).toMatchObject({ ok: true });
    const region = await db.trialRegion.findFirstOrThrow({ where: { trialId: trial.id } });
    expect(region.seatsTaken).toBe(0);
  });
});
