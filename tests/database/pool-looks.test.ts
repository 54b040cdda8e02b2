import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { findFinalPool, findInterimPool } from "@/lib/data/pool-reading";
import { wantPool } from "@/lib/data/pool-state";
import { recordGrade } from "@/lib/services/growing/grades";
import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import { poolBothWays } from "@/lib/services/pool-both-ways";
import { poolTrialNow } from "@/lib/services/pooling";
import { type PoolResult, poolResultSchema } from "@/shared/schemas/pool";
import {
  closeTrial,
  drawnOuting,
  grade,
  joinedGrower,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  run,
} from "./growing-fixture";

const grounds = ownGrounds();

/** A grower who has recorded a set of all six recipes, in the climate group of the class. */
async function recordedSet(trial: OpenTrial, koppenClass: string, turn: number): Promise<Actor> {
  const { db } = grounds;
  const who = await joinedGrower(db, trial);
  await db.site.update({ where: { id: who.siteId }, data: { koppenClass } });
  const set = await drawnOuting(db, trial, who, 6);
  for (const [i, { id }] of set.boxes.entries()) {
    const cover = (turn * 37 + i * 17) % 100;
    expect(await run(db, (tx) => recordGrade(tx, who.grower, grade(id, cover)))).toMatchObject({ ok: true });
  }
  return who.grower;
}

async function poolAgain(trialId: string): Promise<void> {
  await grounds.db.$transaction((tx) => wantPool(tx, trialId));
  await poolTrialNow(trialId, async (work) => poolBothWays(work));
}

async function pooled(trialId: string): Promise<PoolResult> {
  const { db } = grounds;
  await poolAgain(trialId);
  const { cutSha256 } = await db.poolState.findUniqueOrThrow({ where: { trialId } });
  const stored = await db.poolResult.findFirstOrThrow({ where: { trialId, cutSha256: cutSha256! } });
  return poolResultSchema.parse(stored.result);
}

const TWO_LOOKS = {
  ...DEFAULT_PLAN_CHOICES,
  looks: { count: 2, spending: "obrien-fleming-type" },
  endsAtBoxes: 100,
} as const;

describe("a trial with two looks, planned for 100 boxes", () => {
  it("has its one interim look once half of them and every cell's minimum are there, and pays for it at the end", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db, 40, TWO_LOOKS);
    for (let turn = 0; turn < 9; turn++) await recordedSet(trial, turn < 5 ? "Cfb" : "Csa", turn);
    // 54 boxes, but four a recipe in the second group, where the plan's minimum is five.
    expect((await pooled(trial.id)).interim).toBeNull();

    await recordedSet(trial, "Csa", 9);
    const look = await pooled(trial.id);
    expect(look.interim).toEqual({ look: 1, looks: 2, fraction: 0.6, by: "boxes" });
    // 4 P(Z > 2.2414/√0.6) may be spent at 60 % (Lan & DeMets 1983); P(Z > 2.8936) = 0.0019044 by R's pnorm.
    expect(look.level).toBeCloseTo(1 - 4 * 0.0019044, 5);
    expect(look.analysis!.level).toBe(look.level);
    expect(look.analysis!.contrasts.length).toBe(30);
    expect(look.analysis!.contrasts.every(({ p, lower }) => p === null && lower !== null)).toBe(true);

    await recordedSet(trial, "Cfb", 10);
    expect((await pooled(trial.id)).interim, "a second look isn't planned").toBeNull();

    await closeTrial(db, trial);
    const final = await pooled(trial.id);
    expect(final.interim).toBeNull();
    // Two looks of this kind leave the last a little less than 5 %.
    expect(final.level).toBeGreaterThan(0.95);
    expect(final.level).toBeLessThan(0.96);
    expect(final.analysis!.contrasts.every(({ p }) => p !== null)).toBe(true);
    expect(final.analysis!.sensitivity.length).toBe(6);
    expect(final.analysis!.factors.some(({ factor }) => factor === "grain")).toBe(true);
    expect(final.analysis!.moisture.length).toBeGreaterThan(0);
  });
});

/** Boxes and growers by recipe and climate group, and the mean: what a page shows of a cell. */
function shownCells({ cells }: PoolResult): Map<string, object> {
  return new Map(
    cells.map(({ band, arm, counts: { boxes, growers }, mean: { estimate } }) => [
      `${band} ${arm}`,
      { boxes, growers, estimate },
    ]),
  );
}

describe("pages read one after the other", () => {
  /** Ten growers' sets, pooled as the one interim look, and what a grower of them sees of it. */
  async function trialWithLook() {
    const { db } = grounds;
    const trial = await newOpenTrial(db, 40, TWO_LOOKS);
    const growers: Actor[] = [];
    for (let turn = 0; turn < 10; turn++)
      growers.push(await recordedSet(trial, turn < 5 ? "Cfb" : "Csa", turn));
    await poolAgain(trial.id);
    const look = await findInterimPool(db, trial.id, [], growers[0]!.householdId);
    return { trial, growers, look: look!.published! };
  }

  async function publicPage(trialId: string): Promise<PoolResult> {
    return (await findFinalPool(grounds.db, trialId, [], null))!.published!;
  }

  async function leadsResult(trialId: string): Promise<PoolResult> {
    const { cutSha256 } = await grounds.db.poolState.findUniqueOrThrow({ where: { trialId } });
    const where = { trialId, cutSha256: cutSha256! };
    return poolResultSchema.parse((await grounds.db.poolResult.findFirstOrThrow({ where })).result);
  }

  it("say nothing of two households that came between a look and the end", async () => {
    const { trial, look } = await trialWithLook();
    expect(look.interim).not.toBeNull();
    for (const turn of [10, 11]) await recordedSet(trial, "Cfb", turn);
    await closeTrial(grounds.db, trial);
    await poolAgain(trial.id);
    const page = await publicPage(trial.id);
    expect(shownCells(page)).toEqual(shownCells(look));
    expect(page.data).toEqual(look.data);
    expect(page.notes).toContain("NEWER_RECORDS_WAIT");
    const lead = await leadsResult(trial.id);
    expect(lead.data.rows).toBe(72);
    expect(lead.notes).not.toContain("NEWER_RECORDS_WAIT");
    expect(page.analysis!.contrasts.some(({ p }) => p !== null)).toBe(true);
  });

  it("take in where enough came, and not where too few did", async () => {
    const { trial, look } = await trialWithLook();
    for (let turn = 10; turn < 15; turn++) await recordedSet(trial, "Cfb", turn);
    await recordedSet(trial, "Csa", 15);
    await closeTrial(grounds.db, trial);
    await poolAgain(trial.id);
    const [before, after] = [shownCells(look), shownCells(await publicPage(trial.id))];
    for (const [cell, figures] of after) {
      if (cell.startsWith("mild-wet")) expect(figures).toMatchObject({ boxes: 10, growers: 10 });
      else expect(figures).toEqual(before.get(cell));
    }
  });

  it("stay as they are when one household's record changes behind a closed trial", async () => {
    const { db } = grounds;
    const { trial, growers } = await trialWithLook();
    await closeTrial(db, trial);
    await poolAgain(trial.id);
    const before = await publicPage(trial.id);
    // As after a record was restored from elsewhere: the server received it in time.
    const own = await db.grade.findFirstOrThrow({ where: { graderId: growers[3]!.growerId } });
    const take = own.take === 4 ? 0 : 4;
    const corrected = { ...own, id: v7(), revision: own.revision + 1, take, cleanTake: take === 4 };
    await db.grade.create({ data: { ...corrected, measures: own.measures as object } });
    const wasLead = await leadsResult(trial.id);
    await poolAgain(trial.id);
    expect((await leadsResult(trial.id)).data.sha256).not.toBe(wasLead.data.sha256);
    const after = await publicPage(trial.id);
    expect({ ...after, notes: [] }).toEqual({ ...before, notes: [] });
    expect(after.notes).toContain("NEWER_RECORDS_WAIT");
  });
});
