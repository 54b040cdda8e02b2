import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { leave } from "@/lib/services/accounts/leave";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { joinTrial, joinView } from "@/lib/services/growing/join";
import { leaveTrial, stepBack } from "@/lib/services/growing/leave-trial";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { changeCapacity } from "@/lib/services/lead/recruit";
import {
  enrolment,
  joinedGrower,
  newGrower,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  plan,
  run,
  somebodyWaits,
} from "./growing-fixture";

const grounds = ownGrounds();

const join = (trial: OpenTrial, who: Actor, mayWait = true) =>
  run(grounds.db, (tx) => joinTrial(tx, who, { ...enrolment(trial), mayWait }));
const leaving = (trial: OpenTrial, who: Actor) => run(grounds.db, (tx) => leaveTrial(tx, who, trial.id));
const seat = (result: Awaited<ReturnType<typeof join>>) => result.ok && result.value.standing === "seat";
const placeOf = (result: Awaited<ReturnType<typeof join>>) =>
  result.ok && result.value.standing === "waiting" ? result.value.place : null;

function growers(count: number): Promise<Actor[]> {
  return Promise.all(Array.from({ length: count }, (_, i) => newGrower(grounds.db, `Grower ${i}`)));
}

async function leadOf(trial: OpenTrial): Promise<Actor> {
  const lead = await newGrower(grounds.db, "Lead");
  await grounds.db.trialLead.create({ data: { trialId: trial.id, accountId: lead.accountId } });
  return lead;
}

const households = async (trial: OpenTrial) =>
  new Set(
    (await grounds.db.enrolment.findMany({ where: { trialId: trial.id, leftAt: null } })).map(
      ({ householdId }) => householdId,
    ),
  );

/** The free seats of a region while somebody waits there: never any. */
async function freeWhileWaiting(trial: OpenTrial): Promise<number> {
  const region = await grounds.db.trialRegion.findFirstOrThrow({ where: { trialId: trial.id } });
  const waiting = await grounds.db.waitingPlace.count({ where: { trialId: trial.id } });
  expect(region.seatsTaken).toBe((await households(trial)).size);
  return waiting === 0 ? 0 : region.capacity - region.seatsTaken;
}

describe("a full region", () => {
  it("puts whoever asks to wait at the end of its line, once, and refuses the others", async () => {
    const trial = await newOpenTrial(grounds.db, 1);
    const [first, second, third, fourth] = (await growers(4)) as [Actor, Actor, Actor, Actor];
    expect(seat(await join(trial, first))).toBe(true);
    expect(await join(trial, second, false)).toEqual({ ok: false, reason: "REGION_FULL" });
    expect(placeOf(await join(trial, second))).toBe(1);
    expect(placeOf(await join(trial, third))).toBe(2);
    expect(await join(trial, second)).toEqual({ ok: false, reason: "ALREADY_WAITING" });
    const otherAdult = await newGrower(grounds.db, "Other adult", third.householdId);
    expect(await join(trial, otherAdult)).toEqual({ ok: false, reason: "ALREADY_WAITING" });
    const view = await joinView(grounds.db, third, trial.joinCode, "2001:db8::9");
    expect(view).toMatchObject({ ok: true, value: { waiting: { place: 2, regionName: "North" } } });
    expect(await run(grounds.db, (tx) => stepBack(tx, second, trial.id))).toMatchObject({ ok: true });
    expect(await run(grounds.db, (tx) => stepBack(tx, fourth, trial.id))).toEqual({
      ok: false,
      reason: "NOT_FOUND",
    });
    const after = await joinView(grounds.db, third, trial.joinCode, "2001:db8::9");
    expect(after).toMatchObject({ ok: true, value: { waiting: { place: 1 } } });
  });

  it("gives a seat that comes free to the first in line, with the agreement, and tells them by mail", async () => {
    const trial = await newOpenTrial(grounds.db, 1);
    const [first, second, third] = (await growers(3)) as [Actor, Actor, Actor];
    await join(trial, first);
    await join(trial, second);
    await join(trial, third);
    expect(await leaving(trial, first)).toEqual({ ok: true, value: { seatFreed: true } });
    expect(await households(trial)).toEqual(new Set([second.householdId]));
    expect(await grounds.db.agreement.count({ where: { growerId: second.growerId } })).toBe(1);
    const mails = await grounds.db.mail.findMany({ where: { kind: "place-free", trialId: trial.id } });
    expect(mails.map(({ accountId }) => accountId)).toEqual([second.accountId]);
    expect(mails[0]!.body).toContain(`/join/${trial.joinCode}`);
    expect(placeOf(await join(trial, first)), "whoever left goes to the end").toBe(2);
  });

  it("fills seats that its lead adds, in the order of asking, and never goes below those taken", async () => {
    const trial = await newOpenTrial(grounds.db, 2);
    const lead = await leadOf(trial);
    const [first, second, ...line] = (await growers(5)) as [Actor, Actor, ...Actor[]];
    for (const who of [first, second, ...line]) await join(trial, who);
    const change = (actor: Actor, capacity: number) =>
      run(grounds.db, (tx) =>
        changeCapacity(tx, actor, { trialId: trial.id, regionId: trial.regionId, capacity }),
      );
    expect(await change(lead, 1)).toEqual({ ok: false, reason: "BELOW_SEATS_TAKEN" });
    expect(await change(first, 9)).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect(await change(lead, 4)).toEqual({ ok: true, value: { seatsGiven: 2 } });
    expect(await households(trial)).toEqual(
      new Set([first, second, line[0]!, line[1]!].map(({ householdId }) => householdId)),
    );
    expect(await change(lead, 9)).toEqual({ ok: true, value: { seatsGiven: 1 } });
    expect(await grounds.db.waitingPlace.count({ where: { trialId: trial.id } })).toBe(0);
  });

  it("is never overtaken: joiners, leavers and a growing capacity at once keep the order of the line", async () => {
    const trial = await newOpenTrial(grounds.db, 6);
    const lead = await leadOf(trial);
    const seated = await growers(6);
    for (const who of seated) await join(trial, who);
    const line = await growers(6);
    for (const [i, who] of line.entries()) expect(placeOf(await join(trial, who))).toBe(i + 1);
    const newcomers = await growers(12);
    const capacity = { trialId: trial.id, regionId: trial.regionId, capacity: 8 };
    const [, , arrivals] = await Promise.all([
      Promise.all(seated.slice(0, 3).map((who) => leaving(trial, who))),
      run(grounds.db, (tx) => changeCapacity(tx, lead, capacity)),
      Promise.all(newcomers.map((who) => join(trial, who))),
    ]);
    // Three left and two seats were added: the first five of the line have them, nobody who came later.
    expect(arrivals.filter(seat)).toHaveLength(0);
    const standing = await households(trial);
    expect(line.map(({ householdId }) => standing.has(householdId))).toEqual([
      ...[true, true, true, true, true],
      false,
    ]);
    expect(standing.size).toBe(8);
    expect(await freeWhileWaiting(trial)).toBe(0);
    const places = arrivals.map(placeOf).sort((a, b) => a! - b!);
    expect(new Set(arrivals.map((result) => result.ok))).toEqual(new Set([true]));
    expect(places.every((place) => place! >= 2)).toBe(true);
  });

  it("forgets the place of somebody who deletes their account", async () => {
    const trial = await newOpenTrial(grounds.db, 1);
    const [first, second, third] = (await growers(3)) as [Actor, Actor, Actor];
    for (const who of [first, second, third]) await join(trial, who);
    const { hashPassword } = await import("@/lib/auth/passwords");
    const passwordHash = await hashPassword("three quiet boxes");
    await grounds.db.account.update({ where: { id: second.accountId }, data: { passwordHash } });
    expect(await run(grounds.db, (tx) => leave(tx, second, "three quiet boxes"))).toMatchObject({ ok: true });
    await leaving(trial, first);
    expect(await households(trial)).toEqual(new Set([third.householdId]));
  });
});

describe("leaving a trial", () => {
  it("gives up sets without a draw, and a seat kept by a draw stays the household's to come back to", async () => {
    const trial = await newOpenTrial(grounds.db, 1);
    const { grower, siteId } = await joinedGrower(grounds.db, trial);
    const drawn = plan(trial, siteId);
    const planned = plan(trial, siteId);
    for (const outing of [drawn, planned]) {
      expect(await run(grounds.db, (tx) => planOuting(tx, grower, outing))).toMatchObject({ ok: true });
    }
    const draw = (outingId: string) =>
      run(grounds.db, (tx) => drawOuting(tx, grower, { id: v7(), outingId }));
    expect(await draw(drawn.id)).toMatchObject({ ok: true });
    const [waiting] = (await growers(1)) as [Actor];
    await join(trial, waiting);
    expect(await leaving(trial, grower)).toEqual({ ok: true, value: { seatFreed: false } });
    expect(await leaving(trial, grower)).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect(await draw(planned.id)).toEqual({ ok: false, reason: "OUTING_ABANDONED" });
    const again = plan(trial, siteId);
    expect(await run(grounds.db, (tx) => planOuting(tx, grower, again))).toEqual({
      ok: false,
      reason: "JOIN_FIRST",
    });
    expect(await grounds.db.waitingPlace.count({ where: { trialId: trial.id } })).toBe(1);
    expect(seat(await join(trial, grower))).toBe(true);
    expect(await run(grounds.db, (tx) => planOuting(tx, grower, again))).toMatchObject({ ok: true });
    const region = await grounds.db.trialRegion.findFirstOrThrow({ where: { trialId: trial.id } });
    expect(region.seatsTaken).toBe(1);
  });

  it("leaves no set to draw for to a household that plans one at the same moment, and so no second seat", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db, 1);
    const { grower, siteId } = await joinedGrower(db, trial);
    const outing = plan(trial, siteId);
    let planning: ReturnType<typeof run> | undefined;
    await db.$transaction(async (tx) => {
      expect(await leaveTrial(tx, grower, trial.id)).toMatchObject({ ok: true });
      planning = run(db, (other) => planOuting(other, grower, outing));
      await expect.poll(() => somebodyWaits(tx)).toBe(true);
    });
    expect(await planning).toEqual({ ok: false, reason: "JOIN_FIRST" });
    const drawing = await run(db, (tx) => drawOuting(tx, grower, { id: v7(), outingId: outing.id }));
    expect(drawing).toEqual({ ok: false, reason: "NOT_FOUND" });
  });
});

describe("enrolment under load", () => {
  // tests/simulation/enrolment.ts: 500 households and 100 seats, fifty times.
  it("gives 80 households at once exactly 20 seats, the others a place in line each", async () => {
    const trial = await newOpenTrial(grounds.db, 20);
    const asking = await growers(80);
    const results = await Promise.all(asking.map((who) => join(trial, who)));
    expect(results.filter(seat)).toHaveLength(20);
    const places = results.map(placeOf).filter((place) => place !== null);
    expect(places.sort((a, b) => a - b)).toEqual(Array.from({ length: 60 }, (_, i) => i + 1));
    expect((await households(trial)).size).toBe(20);
    expect(await freeWhileWaiting(trial)).toBe(0);
  });
});
