import { parse } from "csv-parse/sync";
import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { recordBoxEvent } from "@/lib/services/growing/box-events";
import { recordGrade } from "@/lib/services/growing/grades";
import { copyTrial } from "@/lib/services/lead/copy";
import { leadBoxes } from "@/lib/services/lead/export";
import { openTrial } from "@/lib/services/lead/open";
import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import { readTrial } from "@/lib/services/read-trials";
import {
  closeTrial,
  drawnOuting,
  grade,
  joinedGrower,
  newGrower,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  run,
} from "./growing-fixture";

const grounds = ownGrounds();

async function leadOf(trial: OpenTrial): Promise<Actor> {
  const lead = { ...(await newGrower(grounds.db, "Lead")), mayLead: true };
  await grounds.db.trialLead.create({ data: { trialId: trial.id, accountId: lead.accountId } });
  return lead;
}

describe("another season of a trial", () => {
  it("is a draft with the same recipes, regions and choices; once open the two lead to each other", async () => {
    const { db } = grounds;
    const reference = { kind: "against-reference" as const, arm: "arm-3" };
    const choices = { ...DEFAULT_PLAN_CHOICES, margin: 0.7, primaryComparison: reference };
    const trial = await newOpenTrial(db, 12, choices);
    const lead = await leadOf(trial);
    const copy = (actor: Actor, now = new Date("2028-07-01T09:00:00Z")) =>
      run(db, (tx) => copyTrial(tx, actor, trial.id, now));
    expect(await copy({ ...lead, mayLead: false })).toEqual({ ok: false, reason: "MAY_NOT_LEAD" });
    const other = { ...(await newGrower(db, "Other lead")), mayLead: true };
    expect(await copy(other)).toEqual({ ok: false, reason: "NOT_FOUND" });
    const copied = await copy(lead);
    if (!copied.ok) throw new Error(copied.reason);
    const stored = async (id: string) =>
      db.trial.findUniqueOrThrow({
        where: { id },
        include: { arms: { orderBy: { position: "asc" } }, regions: true, leads: true },
      });
    const [before, draft] = [await stored(trial.id), await stored(copied.value.trialId)];
    expect(draft).toMatchObject({
      status: "draft",
      followsId: trial.id,
      title: before.title,
      plan: null,
      seal: null,
    });
    expect(draft.endsOn.toISOString().slice(0, 10), "30 June of the first year to come").toBe("2029-06-30");
    const early = await copy(lead, new Date("2026-11-01T09:00:00Z"));
    if (!early.ok) throw new Error(early.reason);
    const { endsOn } = await stored(early.value.trialId);
    expect(endsOn.getUTCFullYear(), "never in the season that still runs").toBe(
      before.endsOn.getUTCFullYear() + 1,
    );
    expect(draft.arms.map(({ variantId }) => variantId)).toEqual(
      before.arms.map(({ variantId }) => variantId),
    );
    expect(draft.regions.map(({ capacity, seatsTaken }) => [capacity, seatsTaken])).toEqual([[12, 0]]);
    expect(draft.planChoices).toMatchObject({ margin: 0.7, primaryComparison: { ...reference, arm: "C" } });
    expect(draft.arms[2]!.code).toBe("C");
    expect(draft.leads.map(({ accountId }) => accountId)).toEqual([lead.accountId]);
    expect((await readTrial(before.slug, db))!.followedBy, "a draft is nobody's to see").toEqual([]);
    const opened = await run(db, (tx) => openTrial(tx, lead, { trialId: draft.id }, new Date()));
    expect(opened).toMatchObject({ ok: true });
    expect((await readTrial(before.slug, db))!.followedBy).toEqual([
      { slug: draft.slug, title: draft.title },
    ]);
    expect((await readTrial(draft.slug, db))!.follows).toEqual({ slug: before.slug, title: before.title });
  });
});

describe("the boxes a lead takes along", () => {
  it("tell what happened and grew, and no recipe before the close", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const lead = await leadOf(trial);
    const { grower, siteId } = await joinedGrower(db, trial);
    const outing = await drawnOuting(db, trial, { grower, siteId });
    const [first, second] = outing.boxes.map(({ id }) => id) as [string, string];
    await run(db, (tx) => recordGrade(tx, grower, grade(first, 5)));
    await run(db, (tx) => recordGrade(tx, grower, grade(first, 45, 1)));
    const told = { occurredAt: new Date().toISOString(), withdrawsId: null, note: "secret words" };
    await run(db, (tx) => recordBoxEvent(tx, grower, { ...told, id: v7(), boxId: second, kind: "animal" }));

    const boxes = async (actor: Actor) => run(db, (tx) => leadBoxes(tx, actor, trial.id));
    expect(await boxes(grower)).toEqual({ ok: false, reason: "NOT_FOUND" });
    const open = await boxes(lead);
    if (!open.ok) throw new Error(open.reason);
    expect(open.value.csv).not.toMatch(/arm|secret words/);
    expect(open.value.csv).not.toContain(siteId);
    const rows: Record<string, string>[] = parse(open.value.csv, { columns: true });
    expect(rows).toHaveLength(4);
    const recorded = rows.filter(({ records }) => records !== "0");
    expect(recorded).toEqual([expect.objectContaining({ growth: "3", cover_percent: "45", records: "2" })]);
    expect(rows.filter(({ happened }) => happened === "animal")).toHaveLength(1);

    await closeTrial(db, trial);
    const closed = await boxes(lead);
    if (!closed.ok) throw new Error(closed.reason);
    const allocated = await db.allocation.findMany({
      where: { box: { outingId: outing.id } },
      include: { arm: true, box: true },
    });
    const armOf = new Map(allocated.map(({ box, arm }) => [box.code, arm.code]));
    const withRecipes: Record<string, string>[] = parse(closed.value.csv, { columns: true });
    expect(withRecipes.map(({ arm }) => arm)).toEqual(withRecipes.map(({ box }) => armOf.get(box!)));
  });
});
