import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { progressByGroup } from "@/lib/data/lead-progress";
import { readBoxFlow } from "@/lib/data/trials";
import { recordGrade } from "@/lib/services/growing/grades";
import { joinTrial } from "@/lib/services/growing/join";
import { giveUpOuting } from "@/lib/services/growing/plan-outing";
import { deskOf, peoplePage } from "@/lib/services/lead/desk";
import { pauseTrial } from "@/lib/services/lead/pause";
import {
  enrolment,
  grade,
  joinedGrower,
  newGrower,
  type OpenTrial,
  ownGrounds,
  run,
} from "./growing-fixture";
import { drawnSet, ledTrial, newLead, tell } from "./lead-fixture";

const grounds = ownGrounds();
let trial: OpenTrial;
let lead: Actor;

/** Long enough after everything was set out for every set to be overdue. */
const later = new Date(Date.now() + 30 * 24 * 3_600_000);

beforeAll(async () => {
  ({ trial, lead } = await ledTrial(grounds.db));
});

const desk = (who: Actor, now = new Date()) => run(grounds.db, (tx) => deskOf(tx, who, trial.id, now));
const people = (who: Actor, group: Parameters<typeof peoplePage>[2]["group"], now = new Date(), page = 1) =>
  run(grounds.db, (tx) => peoplePage(tx, who, { trialId: trial.id, group, page }, now));

describe("the desk of a running trial", () => {
  it("finds every household where it stands, by pseudonym, and nobody's place, name or recipe", async () => {
    const { db } = grounds;
    const noPlace = await newGrower(db, "Has no place");
    await run(db, (tx) => joinTrial(tx, noPlace, enrolment(trial)));
    await joinedGrower(db, trial); // a place, and nothing yet
    const drawn = await joinedGrower(db, trial);
    await drawnSet(db, trial, drawn.grower, drawn.siteId);
    const out = await joinedGrower(db, trial);
    const outSet = await drawnSet(db, trial, out.grower, out.siteId);
    for (const box of outSet.boxIds) await tell(db, out.grower, box, "set-out", { hoursAgo: 2 });
    const back = await joinedGrower(db, trial);
    const backSet = await drawnSet(db, trial, back.grower, back.siteId);
    await tell(db, back.grower, backSet.boxIds[0]!, "set-out", { hoursAgo: 3 });
    await tell(db, back.grower, backSet.boxIds[0]!, "fetched", { hoursAgo: 1 });
    const finished = await joinedGrower(db, trial);
    const finishedSet = await drawnSet(db, trial, finished.grower, finished.siteId);
    for (const box of finishedSet.boxIds) {
      await run(db, (tx) => recordGrade(tx, finished.grower, grade(box, 40)));
    }
    const gaveUp = await joinedGrower(db, trial);
    const given = await drawnSet(db, trial, gaveUp.grower, gaveUp.siteId);
    const input = { id: given.outingId, outingId: given.outingId, reason: "weather", note: "flood" } as const;
    expect(await run(db, (tx) => giveUpOuting(tx, gaveUp.grower, input))).toMatchObject({ ok: true });

    const now = await desk(lead);
    if (!now.ok) throw new Error(now.reason);
    expect(now.value).toMatchObject({
      households: 7,
      here: 7,
      groups: { "no-place": 1, "not-set-out": 3, "drawn-only": 1, overdue: 0, unrecorded: 1, "gave-up": 1 },
      givenUp: [{ reason: "weather", sets: 1 }],
      openRequests: 0,
    });
    expect(await desk(lead, later)).toMatchObject({ value: { groups: { overdue: 1 } } });
    // Three boxes were told to be out; two were recorded of which nothing else was told.
    const [group] = await progressByGroup(db, trial.id, null);
    expect(group).toMatchObject({ boxes: 10, setOut: 5, opened: 2, recorded: 2 });
    const { setOut, opened, recorded } = await readBoxFlow(db, trial.id);
    expect({ setOut, opened, recorded }).toEqual({ setOut: 5, opened: 2, recorded: 2 });

    const page = await people(lead, "overdue", later);
    if (!page.ok) throw new Error(page.reason);
    const { pseudonym } = await db.enrolment.findFirstOrThrow({
      where: { householdId: out.grower.householdId },
    });
    expect(page.value.people.map((person) => person.pseudonym)).toEqual([pseudonym]);
    expect(page.value.people[0]!.sets).toMatchObject([{ boxes: 2, setOut: 2, waiting: 2, isOverdue: true }]);

    const all = await people(lead, null);
    if (!all.ok) throw new Error(all.reason);
    const shown = JSON.stringify(all.value.people);
    const { email } = await db.account.findUniqueOrThrow({ where: { id: out.grower.accountId } });
    for (const secret of [email, "Beech wood", out.siteId, "arm-", out.grower.growerId, "flood"]) {
      expect(shown).not.toContain(secret);
    }

    await run(db, (tx) => pauseTrial(tx, lead, { trialId: trial.id, reason: "fire" }, new Date()));
    expect(await desk(lead, later)).toMatchObject({ value: { groups: { overdue: 0 } } });
  });

  it("comes in pages, and a page too far is the last one", async () => {
    const { db } = grounds;
    const wide = await ledTrial(db);
    await db.trialRegion.updateMany({ where: { trialId: wide.trial.id }, data: { capacity: 60 } });
    for (let i = 0; i < 27; i++) {
      const grower = await newGrower(db, `Grower ${i}`);
      await run(db, (tx) => joinTrial(tx, grower, enrolment(wide.trial)));
    }
    const ask = (page: number) =>
      run(db, (tx) =>
        peoplePage(tx, wide.lead, { trialId: wide.trial.id, group: "no-place", page }, new Date()),
      );
    const [first, last] = [await ask(1), await ask(99)];
    if (!first.ok || !last.ok) throw new Error("refused");
    expect(first.value).toMatchObject({ all: 27, page: 1, pages: 2 });
    expect(last.value.page).toBe(2);
    const names = [...first.value.people, ...last.value.people].map(({ pseudonym }) => pseudonym);
    expect(new Set(names).size).toBe(27);
  });

  it("asks nothing of a household whose account is gone", async () => {
    const { db } = grounds;
    const own = await ledTrial(db);
    const { grower } = await joinedGrower(db, own.trial);
    await db.account.delete({ where: { id: grower.accountId } });
    const found = await run(db, (tx) => deskOf(tx, own.lead, own.trial.id, new Date()));
    expect(found).toMatchObject({ value: { households: 1, here: 0, groups: { "not-set-out": 0 } } });
  });

  it("says how the regions bear a climate group, and their counts add up to the group's", async () => {
    const { db } = grounds;
    const own = await ledTrial(db);
    const regionId = v7();
    const extent = { south: 41, west: -9, north: 44, east: 1 };
    await db.region.create({ data: { id: regionId, code: "second", name: "Second", ...extent } });
    await db.trialRegion.create({ data: { trialId: own.trial.id, regionId, capacity: 5 } });
    for (const trialThere of [own.trial, { ...own.trial, regionId }, { ...own.trial, regionId }]) {
      const { grower, siteId } = await joinedGrower(db, trialThere);
      const { boxIds } = await drawnSet(db, own.trial, grower, siteId);
      await run(db, (tx) => recordGrade(tx, grower, grade(boxIds[0]!, 40)));
    }
    const [group] = await progressByGroup(db, own.trial.id, null);
    expect(group).toMatchObject({ households: 3, sets: 3, boxes: 6, recorded: 3, growth: [0, 0, 0, 3, 0] });
    expect(group!.regions).toEqual([
      { region: "North", households: 1, sets: 1, boxes: 2, recorded: 1 },
      { region: "Second", households: 2, sets: 2, boxes: 4, recorded: 2 },
    ]);
  });

  it("isn't there for growers, other leads and admins", async () => {
    const other = { ...(await newLead(grounds.db, "Another lead")), isAdmin: true };
    const { grower } = await joinedGrower(grounds.db, trial);
    for (const who of [other, grower]) {
      expect(await desk(who)).toEqual({ ok: false, reason: "NOT_FOUND" });
      expect(await people(who, null)).toEqual({ ok: false, reason: "NOT_FOUND" });
    }
  });
});
