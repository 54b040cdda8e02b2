import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import { ledgerOf } from "@/lib/data/draws";
import { recordBoxEvent } from "@/lib/services/growing/box-events";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { recordGrade } from "@/lib/services/growing/grades";
import { outingList } from "@/lib/services/growing/outing-list";
import { outingView } from "@/lib/services/growing/outing-view";
import { giveUpOuting } from "@/lib/services/growing/plan-outing";
import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import type { OutingInput } from "@/shared/schemas/outing";
import type { PlanChoices } from "@/shared/schemas/plan";
import {
  drawnOuting,
  grade,
  type Joined,
  joinedGrower,
  ledgerVerdict,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  plannedOuting,
  run,
  setOutLast,
} from "./growing-fixture";

const grounds = ownGrounds();

interface JoinedTo extends Joined {
  readonly trial: OpenTrial;
}

async function joined(trial: OpenTrial, householdId?: string): Promise<JoinedTo> {
  return { trial, ...(await joinedGrower(grounds.db, trial, householdId)) };
}

type Grains = OutingInput["grainsAtHand"];

async function planned(who: JoinedTo, boxes: number, grainsAtHand?: Grains): Promise<string> {
  return (await plannedOuting(grounds.db, who.trial, who, boxes, grainsAtHand && { grainsAtHand })).id;
}

async function drawn(who: JoinedTo, boxes: number, grainsAtHand?: Grains): Promise<string> {
  return (await drawnOuting(grounds.db, who.trial, who, boxes, grainsAtHand && { grainsAtHand })).id;
}

async function giveUp(who: JoinedTo, outingId: string): Promise<void> {
  const request = { id: v7(), outingId, reason: "weather", note: null } as const;
  const given = await run(grounds.db, (tx) => giveUpOuting(tx, who.grower, request));
  expect(given).toMatchObject({ ok: true });
}

/** Arm codes of a set's boxes, sorted. */
async function armsOf(outingId: string): Promise<string[]> {
  const rows = await grounds.db.allocation.findMany({
    where: { box: { outingId } },
    select: { arm: { select: { code: true } } },
  });
  return rows.map(({ arm }) => arm.code).sort();
}

async function tallies(trial: OpenTrial) {
  return grounds.db.drawTally.findMany({ where: { trialId: trial.id }, orderBy: { band: "asc" } });
}

const view = (who: JoinedTo, outingId: string) =>
  grounds.db.$transaction((tx) => outingView(tx, who.grower, outingId));

const verdict = (trial: OpenTrial) => ledgerVerdict(grounds.db, trial);

describe("after a drawn set was given up", () => {
  it("its recipes come back once, in the household's next set, and are counted once", async () => {
    const trial = await newOpenTrial(grounds.db);
    const who = await joined(trial);
    const second = await joined(trial, who.grower.householdId);
    const stranger = await joined(trial);
    const first = await drawn(who, 4);
    await giveUp(who, first);
    const counted = await tallies(trial);

    const waiting = await planned(second, 4);
    const { code } = await grounds.db.outing.findUniqueOrThrow({ where: { id: first } });
    expect((await view(second, waiting))!.returned).toEqual({ code, owed: 4, kept: null });
    expect((await view(stranger, await drawn(stranger, 4)))!.returned).toBeNull();

    const strangersCounted = await tallies(trial);
    expect(strangersCounted).not.toEqual(counted);
    const back = await drawn(second, 4);
    expect(await armsOf(back)).toEqual(await armsOf(first));
    expect(await tallies(trial)).toEqual(strangersCounted);
    expect((await view(second, back))!.returned).toEqual({ code, owed: 4, kept: 4 });

    expect((await view(who, await drawn(who, 6)))!.returned).toBeNull();
    expect(await tallies(trial)).not.toEqual(strangersCounted);
    expect(await verdict(trial)).toMatchObject({ ok: true, replayed: true });
  });

  it("come back as far as boxes and grains allow, and the page says how far", async () => {
    const trial = await newOpenTrial(grounds.db);
    const who = await joined(trial);
    await giveUp(who, await drawn(who, 6));
    const fewer = await drawn(who, 3);
    expect((await view(who, fewer))!.returned).toMatchObject({ owed: 6, kept: 3 });
    await giveUp(who, fewer);

    // Six recipes of three grains: with one grain less, four of the first six can be cooked.
    const barleyFree = await drawn(who, 3, ["spelt", "white-rice-long"]);
    expect((await view(who, barleyFree))!.returned).toMatchObject({ owed: 6, kept: 3 });
    for (const arm of await armsOf(barleyFree)) expect(["arm-1", "arm-2"]).not.toContain(arm);
    expect(await verdict(trial)).toMatchObject({ ok: true, replayed: true });
  });

  it("come back again when the set they came back in is given up too", async () => {
    const trial = await newOpenTrial(grounds.db);
    const who = await joined(trial);
    const first = await drawn(who, 4);
    await giveUp(who, first);
    const again = await drawn(who, 4);
    await giveUp(who, again);
    expect(await armsOf(await drawn(who, 4))).toEqual(await armsOf(first));
    expect(await verdict(trial)).toMatchObject({ ok: true, replayed: true });
  });

  it("can't be got rid of by a set with fewer boxes or other grains in between", async () => {
    const trial = await newOpenTrial(grounds.db);
    const who = await joined(trial);
    const first = await drawn(who, 3);
    const allocation = await armsOf(first);
    await giveUp(who, first);
    for (const [boxes, grains] of [[2], [4], [3, ["spelt", "barley-pearl"]], [2], [6]] as const) {
      await giveUp(who, await drawn(who, boxes, grains && [...grains]));
      const again = await drawn(who, 3);
      expect(await armsOf(again)).toEqual(allocation);
      await giveUp(who, again);
    }
    expect(await verdict(trial)).toMatchObject({ ok: true, replayed: true });
  });

  it("a set with a recorded box can't be given up, so no allocation comes back because it is liked", async () => {
    const trial = await newOpenTrial(grounds.db);
    const who = await joined(trial);
    const outingId = await drawn(who, 2);
    const [box] = await grounds.db.box.findMany({ where: { outingId }, orderBy: { position: "asc" } });
    const request = { id: v7(), outingId, reason: "weather", note: null } as const;
    const giveUpNow = () => run(grounds.db, (tx) => giveUpOuting(tx, who.grower, request));
    const kept = await run(grounds.db, (tx) => recordGrade(tx, who.grower, grade(box!.id, 40)));
    expect(kept).toMatchObject({ ok: true });
    expect(await giveUpNow()).toEqual({ ok: false, reason: "RECORDS_BEGUN" });
    const next = await drawn(who, 2);
    const [, entry] = await ledgerOf(grounds.db, trial.id);
    expect(entry!.inputs.returns).toBeUndefined();
    expect((await view(who, next))!.returned).toBeNull();
  });

  it("giving a set up while it is drawn ends in one order or the other, and what was drawn comes back", async () => {
    const trial = await newOpenTrial(grounds.db);
    const who = await joined(trial);
    for (let round = 0; round < 8; round++) {
      const outingId = await planned(who, 3);
      const request = { id: v7(), outingId, reason: "weather", note: null } as const;
      const [draw, given] = await Promise.all([
        run(grounds.db, (tx) => drawOuting(tx, who.grower, { id: v7(), outingId })),
        run(grounds.db, (tx) => giveUpOuting(tx, who.grower, request)),
      ]);
      expect(given).toMatchObject({ ok: true });
      if (!draw.ok) expect(draw.reason).toBe("OUTING_ABANDONED");
      const row = await grounds.db.outing.findUniqueOrThrow({ where: { id: outingId } });
      expect([row.status, row.committedAt !== null]).toEqual(["abandoned", draw.ok]);
      const note = await grounds.db.auditEntry.findFirstOrThrow({
        where: { subjectId: outingId, action: "outing.abandoned" },
      });
      expect(note.detail).toEqual({ reason: "weather", drawn: draw.ok });
    }
    expect(await verdict(trial)).toMatchObject({ ok: true, replayed: true });
  });

  it("nothing comes back of one given up before its draw", async () => {
    const trial = await newOpenTrial(grounds.db);
    const who = await joined(trial);
    await giveUp(who, await planned(who, 4));
    await drawn(who, 4);
    const [entry] = await ledgerOf(grounds.db, trial.id);
    expect(entry!.inputs.returns).toBeUndefined();
  });
});

describe("what is the most that can be needed", () => {
  it("is never less than what was drawn, for a return too", async () => {
    const trial = await newOpenTrial(grounds.db);
    const who = await joined(trial);
    let givenUp: string | null = null;
    for (const boxes of [6, 4, 5, 2, 6, 3]) {
      const outingId = await planned(who, boxes, boxes % 2 ? ["spelt", "white-rice-long"] : undefined);
      const most = new Map(
        (await view(who, outingId))!.mostGrain!.map((each) => [each.grain, each.dryGrainMassG]),
      );
      expect(await run(grounds.db, (tx) => drawOuting(tx, who.grower, { id: v7(), outingId }))).toMatchObject(
        {
          ok: true,
        },
      );
      const needed = new Map<string, number>();
      const { boxes: cooked, amounts } = (await view(who, outingId))!;
      for (const { recipe } of cooked) {
        const massG = amounts.get(recipe!.variantId)!.perBox.dryGrainMassG;
        needed.set(recipe!.content.grain, (needed.get(recipe!.content.grain) ?? 0) + massG);
      }
      for (const [grain, massG] of needed)
        expect(massG).toBeLessThanOrEqual(most.get(grain as never)! + 1e-9);
      if (!givenUp) await giveUp(who, outingId);
      givenUp = givenUp ? null : outingId;
    }
  });
});

describe("the day to fetch", () => {
  const withFetch = (fetchRule: PlanChoices["fetchRule"]) =>
    newOpenTrial(grounds.db, 20, { ...DEFAULT_PLAN_CHOICES, fetchRule });

  async function setOut(who: JoinedTo, outingId: string, occurredAt: string): Promise<void> {
    const box = await grounds.db.box.findFirstOrThrow({ where: { outingId } });
    const event = {
      id: v7(),
      boxId: box.id,
      kind: "set-out",
      occurredAt,
      withdrawsId: null,
      note: null,
    } as const;
    expect(await run(grounds.db, (tx) => recordBoxEvent(tx, who.grower, event))).toMatchObject({ ok: true });
  }

  it("is drawn where the plan stages it, stands in the ledger, and is what the grower is told", async () => {
    const trial = await withFetch({ kind: "staged", afterDays: [4, 7, 11] });
    const who = await joined(trial);
    const waiting = await planned(who, 4);
    expect(await view(who, waiting)).toMatchObject({ stagedDays: [4, 7, 11], fetchDay: null });
    const sets: string[] = [];
    for (let set = 0; set < 12; set++) {
      sets.push(await drawn(who, 3));
      if (set > 0) await setOutLast(grounds.db, sets[set]!);
    }
    const entries = await ledgerOf(grounds.db, trial.id);
    const days = entries.map(({ fetchAfterDays }) => fetchAfterDays!);
    expect(days.every((drawnDays) => [4, 7, 11].includes(drawnDays))).toBe(true);
    expect(new Set(days).size).toBeGreaterThan(1);
    expect(await verdict(trial)).toMatchObject({ ok: true, replayed: true });

    const at = new Date(Date.now() - 60_000);
    await setOut(who, sets[0]!, `${at.toISOString().slice(0, 19)}+00:00`);
    const day = new Date(at.getTime() + days[0]! * 24 * 3_600_000).toISOString().slice(0, 10);
    const page = (await view(who, sets[0]!))!;
    expect(page.fetchDay).toEqual({ afterDays: days[0], isDrawn: true });
    expect(page.due).toMatchObject({ kind: "fetch-on", day });
    const { items } = await grounds.db.$transaction((tx) => outingList(tx, who.grower));
    expect(items.find(({ id }) => id === sets[0])!.due).toMatchObject({ kind: "fetch-on", day });
  });

  it("comes back with the recipes", async () => {
    const trial = await withFetch({ kind: "staged", afterDays: [3, 6, 9, 12, 15, 18] });
    const who = await joined(trial);
    const first = await drawn(who, 4);
    await giveUp(who, first);
    const back = await drawn(who, 4);
    const dayOf = async (outingId: string) =>
      (await grounds.db.draw.findUniqueOrThrow({ where: { outingId } })).fetchAfterDays;
    expect(await dayOf(back)).toBe(await dayOf(first));
  });

  it("is the same for all where the plan says so, without any draw", async () => {
    const trial = await withFetch({ kind: "same-day", afterDays: 7 });
    const who = await joined(trial);
    const page = (await view(who, await drawn(who, 4)))!;
    expect(page.fetchDay).toEqual({ afterDays: 7, isDrawn: false });
    expect((await ledgerOf(grounds.db, trial.id))[0]!.fetchAfterDays).toBeUndefined();
  });
});
