import { v7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { wantPool } from "@/lib/data/pool-state";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { recordGrade } from "@/lib/services/growing/grades";
import { joinTrial } from "@/lib/services/growing/join";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { registerSite } from "@/lib/services/growing/sites";
import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import { poolBothWays } from "@/lib/services/pool-both-ways";
import { poolTrialNow } from "@/lib/services/pooling";
import { type PoolResult, poolResultSchema } from "@/shared/schemas/pool";
import {
  closeTrial,
  coastSite,
  enrolment,
  type Grounds,
  grade,
  newGrower,
  newOpenTrial,
  type OpenTrial,
  openGrounds,
  plan,
  run,
} from "./growing-fixture";

let grounds: Grounds;

beforeAll(async () => {
  grounds = await openGrounds();
});
afterAll(() => grounds.close());

/** A grower who has recorded a set of all six recipes, in the climate group of the class. */
async function recordedSet(trial: OpenTrial, koppenClass: string, turn: number): Promise<Actor> {
  const { db } = grounds;
  const actor = await newGrower(db, "Invented grower");
  const site = coastSite();
  const outing = plan(trial, site.id, 6);
  expect(await run(db, (tx) => joinTrial(tx, actor, enrolment(trial)))).toMatchObject({ ok: true });
  expect(await run(db, (tx) => registerSite(tx, actor, site))).toMatchObject({ ok: true });
  await db.site.update({ where: { id: site.id }, data: { koppenClass } });
  expect(await run(db, (tx) => planOuting(tx, actor, outing))).toMatchObject({ ok: true });
  const drawn = await run(db, (tx) => drawOuting(tx, actor, { id: v7(), outingId: outing.id }));
  expect(drawn).toMatchObject({ ok: true });
  for (const [i, { id }] of outing.boxes.entries()) {
    const cover = (turn * 37 + i * 17) % 100;
    expect(await run(db, (tx) => recordGrade(tx, actor, grade(id, cover)))).toMatchObject({ ok: true });
  }
  return actor;
}

async function pooled(trialId: string): Promise<PoolResult> {
  const { db } = grounds;
  await db.$transaction((tx) => wantPool(tx, trialId));
  await poolTrialNow(trialId, async (work) => poolBothWays(work));
  const { cutSha256 } = await db.poolState.findUniqueOrThrow({ where: { trialId } });
  const stored = await db.poolResult.findFirstOrThrow({ where: { trialId, cutSha256: cutSha256! } });
  return poolResultSchema.parse(stored.result);
}

describe("a trial with two looks, planned for 100 boxes", () => {
  it("has its one interim look once half of them and every cell's minimum are there, and pays for it at the end", async () => {
    const { db } = grounds;
    const looks = { count: 2, spending: "obrien-fleming-type" } as const;
    const trial = await newOpenTrial(db, 40, { ...DEFAULT_PLAN_CHOICES, looks, endsAtBoxes: 100 });
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
