import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import { leadsAlone, leave } from "@/lib/services/accounts/leave";
import { recordGrade } from "@/lib/services/growing/grades";
import { closeTrial } from "@/lib/services/lead/close";
import { stepBack } from "@/lib/services/lead/co-leads";
import { makeDraft } from "@/lib/services/lead/draft";
import { hideThing, showThing } from "@/lib/services/lead/hide";
import { keepRelease, previewRelease, type ReleaseMeans } from "@/lib/services/lead/release";
import { poolBothWays } from "@/lib/services/pool-both-ways";
import { trialDraftSchema } from "@/shared/schemas/trial-draft";
import { newMember, PASSWORD } from "./accounts-fixture";
import { grade, joinedGrower, newOpenTrial, type OpenTrial, ownGrounds, run } from "./growing-fixture";
import { drawnSet, tell } from "./lead-fixture";

const NOW = new Date();
const MEANS: ReleaseMeans = { pool: async (work) => poolBothWays(work), writeMethods: () => "invented" };

const grounds = ownGrounds();

/** An open trial of this many households with a recorded set each, and the lead it has alone. */
async function ledAlone(households: number) {
  const { db } = grounds;
  const trial = await newOpenTrial(db);
  const { actor: lead } = await newMember(db, "Lead", { mayLead: true });
  await db.trialLead.create({ data: { trialId: trial.id, accountId: lead.accountId } });
  for (let i = 0; i < households; i++) {
    const { grower, siteId } = await joinedGrower(db, trial);
    const { boxIds } = await drawnSet(db, trial, grower, siteId);
    for (const box of boxIds) await run(db, (tx) => recordGrade(tx, grower, grade(box, 20 * i)));
  }
  return { trial, lead };
}

const close = (trial: OpenTrial, lead: Parameters<typeof closeTrial>[1]) =>
  run(grounds.db, (tx) => closeTrial(tx, lead, trial.id, NOW));

describe("the last lead of a trial", () => {
  it("can't go while it is open, nor once closed, before its final results are released", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledAlone(3);
    const go = () => run(db, (tx) => leave(tx, lead, PASSWORD));
    const alone = { ok: false, reason: "LEADS_ALONE" };
    expect(await go()).toEqual(alone);
    expect(await close(trial, lead)).toMatchObject({ ok: true });
    expect(await leadsAlone(db, lead)).toMatchObject([{ id: trial.id }]);
    expect(await run(db, (tx) => stepBack(tx, lead, trial.id))).toEqual({ ok: false, reason: "LAST_LEAD" });
    expect(await go()).toEqual(alone);

    const preview = await previewRelease(lead, trial.id, MEANS, NOW);
    if (!preview.ok) throw new Error(preview.reason);
    expect(await run(db, (tx) => keepRelease(tx, lead, preview.value, NOW))).toMatchObject({ ok: true });
    expect(await go()).toMatchObject({ ok: true });
  });

  it("can go once another lead is there", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledAlone(3);
    await close(trial, lead);
    const { actor: second } = await newMember(db, "Second", { mayLead: true });
    await db.trialLead.create({ data: { trialId: trial.id, accountId: second.accountId } });
    expect(await leadsAlone(db, lead)).toEqual([]);
    expect(await run(db, (tx) => leave(tx, lead, PASSWORD))).toMatchObject({ ok: true });
    expect(await run(db, (tx) => leave(tx, second, PASSWORD))).toMatchObject({ reason: "LEADS_ALONE" });
  });

  it("isn't held by a closed trial of too few households, which can never be released", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledAlone(2);
    await close(trial, lead);
    const preview = await previewRelease(lead, trial.id, MEANS, NOW);
    expect(preview).toEqual({ ok: false, reason: "TOO_FEW_HOUSEHOLDS" });
    expect(await run(db, (tx) => leave(tx, lead, PASSWORD))).toMatchObject({ ok: true });
  });

  it("takes along a draft that nobody else leads, and no other trial can be deleted", async () => {
    const { db } = grounds;
    const { actor: lead } = await newMember(db, "Lead", { mayLead: true });
    const { actor: second } = await newMember(db, "Second", { mayLead: true });
    const make = async (title: string) => {
      const draft = trialDraftSchema.parse({
        ...{ title, question: "Which of the two takes better?", boxesMin: 2, boxesMax: 6 },
        ...{ endsOn: "2099-06-30", grouping: [{ code: "mild-wet", classes: ["Cfb"] }], regions: [] },
        newRegion: { name: title, south: 42, west: -9, north: 44, east: 1, capacity: 5 },
      });
      const made = await run(db, (tx) => makeDraft(tx, lead, draft, NOW));
      if (!made.ok) throw new Error(made.reason);
      return made.value.trialId;
    };
    const [own, shared] = [await make("My own draft"), await make("A shared draft")];
    await db.trialLead.create({ data: { trialId: shared, accountId: second.accountId } });
    expect(await run(db, (tx) => leave(tx, lead, PASSWORD))).toMatchObject({ ok: true });
    const left = await db.trial.findMany({ where: { id: { in: [own, shared] } } });
    expect(left.map(({ id }) => id)).toEqual([shared]);

    const open = await newOpenTrial(db);
    const remove = db.$executeRaw`DELETE FROM trial WHERE id = ${open.id}::uuid`;
    await expect(remove).rejects.toThrow(/has opened and stays/);
  });
});

it("takes the words of a reason back that a lead gave for hiding something; it stays hidden", async () => {
  const { db } = grounds;
  const { trial, lead: first } = await ledAlone(0);
  const { actor: second } = await newMember(db, "Second", { mayLead: true });
  await db.trialLead.create({ data: { trialId: trial.id, accountId: second.accountId } });
  const { grower, siteId } = await joinedGrower(db, trial);
  const { boxIds } = await drawnSet(db, trial, grower, siteId);
  const things = { firsts: "", seconds: "", both: "" };
  for (const name of Object.keys(things) as (keyof typeof things)[]) {
    const subjectId = await tell(db, grower, boxIds[0]!, "animal", { note: name });
    things[name] = (await db.freeText.findFirstOrThrow({ where: { subjectId } })).id;
  }
  const picture = v7();
  const bytes = { sha256: "0".repeat(64), bytes: 10, widthPx: 4, heightPx: 3 };
  await db.photo.create({
    data: { ...bytes, id: picture, accountId: grower.accountId, boxId: boxIds[0]! },
  });
  const hide = async (who: typeof first, kind: "words" | "picture", id: string, reason: string) =>
    expect(
      await run(db, (tx) => hideThing(tx, who, { trialId: trial.id, kind, id, reason }, new Date())),
    ).toMatchObject({ ok: true });
  await hide(first, "words", things.firsts, "First's reason");
  await hide(first, "picture", picture, "First's reason");
  await hide(second, "words", things.seconds, "Second's reason");
  await hide(first, "words", things.both, "First's reason");
  const asked = { trialId: trial.id, kind: "words", id: things.both } as const;
  expect(await run(db, (tx) => showThing(tx, second, asked))).toMatchObject({ ok: true });
  await hide(second, "words", things.both, "Second's reason");

  expect(await run(db, (tx) => leave(tx, first, PASSWORD))).toMatchObject({ ok: true });
  const reasons = new Map(
    (await db.freeText.findMany({ where: { accountId: grower.accountId } })).map((words) => [
      words.id,
      words.hiddenReason,
    ]),
  );
  expect(reasons).toEqual(
    new Map([
      [things.firsts, ""],
      [things.seconds, "Second's reason"],
      [things.both, "Second's reason"],
    ]),
  );
  expect(await db.photo.findUniqueOrThrow({ where: { id: picture } })).toMatchObject({
    hiddenReason: "",
    hiddenAt: expect.any(Date),
  });
  const letters = await db.mail.findMany({ where: { accountId: grower.accountId } });
  expect(letters.map(({ body }) => body).join("\n")).not.toContain("First's reason");
  expect(letters.filter(({ body }) => body.includes("Second's reason"))).toHaveLength(2);
});
