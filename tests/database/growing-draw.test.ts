import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { ledgerOf } from "@/lib/data/draws";
import { timeHashOf } from "@/lib/engine/design/ledger";
import { ledgerOutingId } from "@/lib/engine/design/ledger-outing-id";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { giveUpOuting, planOuting } from "@/lib/services/growing/plan-outing";
import { registerSite } from "@/lib/services/growing/sites";
import {
  closeTrial,
  coastSite,
  type Joined,
  joinedGrower,
  ledgerVerdict,
  newGrower,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  plan,
  plannedOuting,
  run,
  SECRET_HEX,
} from "./growing-fixture";

const grounds = ownGrounds();

const joined = (trial: OpenTrial) => joinedGrower(grounds.db, trial);

async function planned(trial: OpenTrial, who: Joined, boxes = 4): Promise<string> {
  return (await plannedOuting(grounds.db, trial, who, boxes)).id;
}

const draw = (who: { grower: Actor }, outingId: string) =>
  run(grounds.db, (tx) => drawOuting(tx, who.grower, { id: v7(), outingId }));

describe("planning a set of boxes", () => {
  it("is refused where the trial, its region, its climate groups or its limits have no place for it", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const who = await joined(trial);
    const reasonOf = async (changes: object, grower = who.grower) => {
      const input = { ...plan(trial, who.siteId), ...changes };
      const result = await run(db, (tx) => planOuting(tx, grower, input));
      return result.ok ? "kept" : result.reason;
    };
    const siteAt = async (latitude: number, longitude: number, elevationM: number) => {
      const site = { ...coastSite(), id: v7(), latitude, longitude, elevationM };
      expect((await run(db, (tx) => registerSite(tx, who.grower, site))).ok).toBe(true);
      return site.id;
    };
    const boxes = (n: number) => Array.from({ length: n }, () => ({ id: v7() }));
    expect(await reasonOf({ boxes: boxes(7) })).toBe("BOX_COUNT_OUTSIDE_TRIAL");
    expect(await reasonOf({ day: "2027-07-01" })).toBe("DAY_AFTER_TRIAL");
    expect(await reasonOf({ grainsAtHand: ["teff"] })).toBe("NO_ARM_POSSIBLE");
    expect(await reasonOf({ siteId: await siteAt(38.7, -9.1, 80) })).toBe("SITE_OUTSIDE_REGION");
    // Zaragoza, on the dry side of the Ebro: BSk, in neither of the trial's groups.
    expect(await reasonOf({ siteId: await siteAt(41.7, -1, 250) })).toBe("CLASS_NOT_IN_TRIAL");
    expect(await reasonOf({}, await newGrower(db, "Stranger"))).toBe("NOT_FOUND");
    expect(await reasonOf({ trialId: (await newOpenTrial(db)).id })).toBe("JOIN_FIRST");
    expect(await reasonOf({})).toBe("kept");
  });
});

describe("a draw", () => {
  it("is made once, whoever presses however often at once", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const who = await joined(trial);
    const outingId = await planned(trial, who);
    expect(await db.allocation.count({ where: { box: { outingId } } })).toBe(0);
    const results = await Promise.all(Array.from({ length: 6 }, () => draw(who, outingId)));
    expect(results.filter((result) => result.ok)).toHaveLength(1);
    expect(results.flatMap((result) => (result.ok ? [] : [result.reason]))).toEqual(
      Array(5).fill("ALREADY_DRAWN"),
    );
    expect(await db.allocation.count({ where: { box: { outingId } } })).toBe(4);
    const outing = await db.outing.findUniqueOrThrow({ where: { id: outingId } });
    expect(outing).toMatchObject({ status: "drawn", band: "mild-wet", koppenClass: "Cfb" });
  });

  it("follows the one before: two growers' draws at once make a ledger that can be replayed", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const growers = [await joined(trial), await joined(trial)];
    const sets: { who: (typeof growers)[number]; outingId: string }[] = [];
    for (const boxes of [3, 6, 4, 2]) {
      for (const who of growers) sets.push({ who, outingId: await planned(trial, who, boxes) });
    }
    const receipts = await Promise.all(sets.map(({ who, outingId }) => draw(who, outingId)));
    expect(receipts.every((receipt) => receipt.ok)).toBe(true);

    expect(await ledgerVerdict(db, trial)).toMatchObject({ ok: true, replayed: true, head: { draws: 8 } });
    const entries = await ledgerOf(db, trial.id);
    for (const receipt of receipts) {
      if (receipt.ok) expect(entries[receipt.value.number - 1]!.hash).toBe(receipt.value.hash);
    }
    // 30 boxes over 6 recipes: the two sets of 6 hold each once, the others none of them twice.
    const counts = await db.allocation.groupBy({
      by: ["armId"],
      where: { box: { outing: { trialId: trial.id } } },
      _count: true,
    });
    const times = counts.map(({ _count }) => _count);
    expect(times.reduce((sum, count) => sum + count, 0)).toBe(30);
    expect(times).toHaveLength(6);
    expect(Math.min(...times)).toBeGreaterThanOrEqual(2);
    expect(Math.max(...times)).toBeLessThanOrEqual(8);
  });

  it("tells the ledger of no grain that the trial doesn't use", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const who = await joined(trial);
    const pantry = { ...plan(trial, who.siteId), grainsAtHand: ["teff", "spelt", "barley-pearl"] };
    const kept = await run(db, (tx) => planOuting(tx, who.grower, pantry as ReturnType<typeof plan>));
    expect(kept).toMatchObject({ ok: true });
    expect((await draw(who, pantry.id)).ok).toBe(true);
    const [entry] = await ledgerOf(db, trial.id);
    expect(entry!.inputs.grainsAtHand).toEqual(["spelt", "barley-pearl"]);
    expect(await ledgerVerdict(db, trial)).toMatchObject({ ok: true, replayed: true });
  });

  it("carries pseudonyms only, and the grower can find theirs by outing and time once the secret is open", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const who = await joined(trial);
    const outingId = await planned(trial, who);
    expect((await draw(who, outingId)).ok).toBe(true);
    const row = await db.draw.findUniqueOrThrow({ where: { outingId } });
    const text = JSON.stringify([row.inputs, row.result]);
    for (const own of [
      outingId,
      who.siteId,
      ...Object.values(who.grower)
        .map(String)
        .filter((v) => v.length > 8),
    ]) {
      expect(text).not.toContain(own);
    }
    expect(text).not.toContain(row.drawnAt.toISOString().slice(0, 10));
    const [entry] = await ledgerOf(db, trial.id);
    expect(entry!.inputs.outingId).toBe(ledgerOutingId(SECRET_HEX, outingId));
    expect(entry!.inputs.timeHash).toBe(timeHashOf(row.timeSalt, row.drawnAt.toISOString()));
  });

  it("stays when the set is given up, and never comes for a set given up before, a closed trial or another's set", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const who = await joined(trial);
    const stranger = await joined(trial);
    const giveUp = (outingId: string, grower = who.grower) =>
      run(db, (tx) => giveUpOuting(tx, grower, { id: v7(), outingId, reason: "weather", note: "Storm." }));

    const drawn = await planned(trial, who);
    expect(await draw(stranger, drawn)).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect(await giveUp(drawn, stranger.grower)).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect((await draw(who, drawn)).ok).toBe(true);
    expect((await giveUp(drawn)).ok).toBe(true);
    expect(await giveUp(drawn)).toEqual({ ok: false, reason: "ALREADY_ABANDONED" });
    expect(await draw(who, drawn)).toEqual({ ok: false, reason: "ALREADY_DRAWN" });
    expect(await db.allocation.count({ where: { box: { outingId: drawn } } })).toBe(4);

    const givenUpFirst = await planned(trial, who);
    expect((await giveUp(givenUpFirst)).ok).toBe(true);
    expect(await draw(who, givenUpFirst)).toEqual({ ok: false, reason: "OUTING_ABANDONED" });

    const late = await planned(trial, who);
    await closeTrial(db, trial);
    expect(await draw(who, late)).toEqual({ ok: false, reason: "TRIAL_NOT_OPEN" });
    expect((await db.outing.findUniqueOrThrow({ where: { id: late } })).committedAt).toBeNull();
  });
});
