import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import { joinTrial, joinView } from "@/lib/services/growing/join";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { joinedTrials, planningView } from "@/lib/services/growing/planning-view";
import { registerSite } from "@/lib/services/growing/sites";
import { registerVariant } from "@/lib/services/growing/variants";
import { BARLEY_RECIPE } from "../engine/grain/recipes";
import {
  closeTrial,
  coastSite,
  enrolment,
  newGrower,
  newOpenTrial,
  ownGrounds,
  plan,
  run,
} from "./growing-fixture";

const grounds = ownGrounds();

describe("joining a trial", () => {
  it("gives twenty households at once exactly the five seats there are", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db, 5);
    const growers = await Promise.all(Array.from({ length: 20 }, (_, i) => newGrower(db, `Grower ${i}`)));
    const results = await Promise.all(
      growers.map((grower) => run(db, (tx) => joinTrial(tx, grower, enrolment(trial)))),
    );
    expect(results.filter((result) => result.ok)).toHaveLength(5);
    const refusals = results.flatMap((result) => (result.ok ? [] : [result.reason]));
    expect(new Set(refusals)).toEqual(new Set(["REGION_FULL"]));
    const enrolled = await db.enrolment.findMany({ where: { trialId: trial.id } });
    expect(new Set(enrolled.map((row) => row.pseudonym)).size).toBe(5);
    expect(await db.agreement.count({ where: { trialId: trial.id } })).toBe(5);
    const [region] = await db.trialRegion.findMany({ where: { trialId: trial.id } });
    expect(region!.seatsTaken).toBe(5);
  });

  it("takes one seat for two adults of a household, even when both press at once", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db, 5);
    const first = await newGrower(db, "First");
    const second = await newGrower(db, "Second", first.householdId);
    const both = await Promise.all(
      [first, second].map((grower) => run(db, (tx) => joinTrial(tx, grower, enrolment(trial)))),
    );
    expect(
      both
        .map((result) => result.ok && result.value.standing === "seat" && result.value.householdHadSeat)
        .sort(),
    ).toEqual([false, true]);
    expect(await db.enrolment.count({ where: { trialId: trial.id } })).toBe(1);
    expect(await db.agreement.count({ where: { trialId: trial.id } })).toBe(2);
    expect((await db.trialRegion.findFirst({ where: { trialId: trial.id } }))!.seatsTaken).toBe(1);

    const third = await newGrower(db, "Third", first.householdId);
    const site = coastSite();
    const joining = () => joinView(db, third, trial.joinCode, "2001:db8::2");
    expect(await joining()).toMatchObject({ value: { hasAgreed: false, hasPlace: false } });
    expect(await run(db, (tx) => registerSite(tx, third, site))).toMatchObject({ ok: true });
    expect(await joining()).toMatchObject({ value: { hasAgreed: false, hasPlace: true } });
    // Their household's trial leads them to the page on which they agree.
    expect(await joinedTrials(db, third)).toMatchObject([{ id: trial.id, joinCode: trial.joinCode }]);
    expect(await planningView(db, third, trial.id)).toBeNull();
    const planning = () => run(db, (tx) => planOuting(tx, third, plan(trial, site.id)));
    expect(await planning(), "a seat lets nobody in who hasn't agreed").toEqual({
      ok: false,
      reason: "JOIN_FIRST",
    });
    expect(await run(db, (tx) => joinTrial(tx, third, enrolment(trial)))).toMatchObject({ ok: true });
    expect(await planning()).toMatchObject({ ok: true });

    const again = await run(db, (tx) => joinTrial(tx, first, enrolment(trial)));
    expect(again).toEqual({ ok: false, reason: "ALREADY_JOINED" });
  });

  it("refuses an unknown code, a region of another trial, and a closed trial", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const other = await newOpenTrial(db);
    const grower = await newGrower(db, "Grower");
    const join = (changes: object) =>
      run(db, (tx) => joinTrial(tx, grower, { ...enrolment(trial), ...changes }));
    expect(await join({ joinCode: "no-such" })).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect(await join({ regionId: other.regionId })).toEqual({ ok: false, reason: "NOT_FOUND" });
    await closeTrial(db, trial);
    expect(await join({})).toEqual({ ok: false, reason: "TRIAL_NOT_OPEN" });
    const view = await joinView(db, grower, trial.joinCode, "2001:db8::1");
    expect(view).toMatchObject({ ok: true, value: { trial: { status: "closed" } } });
  });
});

describe("a place", () => {
  it("gets the class of the nearest station, with the distance and the height it was moved by", async () => {
    const { db } = grounds;
    const grower = await newGrower(db, "Grower");
    const result = await run(db, (tx) => registerSite(tx, grower, coastSite()));
    expect(result).toMatchObject({ ok: true, value: { koppenClass: "Cfb", climate: { source: "station" } } });
    if (!result.ok) return;
    const { station, monthlyMeanC } = result.value.climate;
    expect(station!.distanceKm).toBeLessThan(150);
    expect(monthlyMeanC).toHaveLength(12);
    const stored = await db.site.findUniqueOrThrow({
      where: { id: result.value.siteId },
      include: { place: true },
    });
    expect(Object.keys(stored)).not.toContain("latitude");
    expect(stored.place).toMatchObject({ name: "Beech wood", accountId: grower.accountId });
  });

  it("asks for own numbers in the open sea, and takes them", async () => {
    const { db } = grounds;
    const grower = await newGrower(db, "Grower");
    const sea = { ...coastSite(), latitude: -48.9, longitude: -123.4, elevationM: 0 };
    expect(await run(db, (tx) => registerSite(tx, grower, sea))).toEqual({
      ok: false,
      reason: "NO_CLIMATE_HERE",
    });
    const ownNormals = { monthlyMeanC: Array(12).fill(12), monthlyRainMm: Array(12).fill(80) };
    const own = await run(db, (tx) => registerSite(tx, grower, { ...sea, id: v7(), ownNormals }));
    expect(own).toMatchObject({ ok: true, value: { koppenClass: "Cfb", climate: { source: "own" } } });
  });

  it("does not take over another's id", async () => {
    const { db } = grounds;
    const site = coastSite();
    const owner = await newGrower(db, "Owner");
    const stranger = await newGrower(db, "Stranger");
    expect((await run(db, (tx) => registerSite(tx, owner, site))).ok).toBe(true);
    expect(await run(db, (tx) => registerSite(tx, stranger, { ...site, name: "Mine" }))).toEqual({
      ok: false,
      reason: "NOT_FOUND",
    });
  });
});

describe("a recipe", () => {
  const content = { ...BARLEY_RECIPE, grain: "millet", waterToGrain: 1.25, ratioBasis: "volume" } as const;

  it("of identical content is one row, whoever registers it and to whatever third decimal", async () => {
    const { db } = grounds;
    const [first, second] = [await newGrower(db, "First"), await newGrower(db, "Second")];
    const mine = await run(db, (tx) =>
      registerVariant(tx, first, { id: v7(), name: "Soft millet", content }),
    );
    const theirs = await run(db, (tx) =>
      registerVariant(tx, second, {
        id: v7(),
        name: "Millet as ever",
        content: { ...content, waterToGrain: 1.2504 },
      }),
    );
    if (!mine.ok || !theirs.ok) throw new Error("both should be kept");
    expect([mine.value.known, theirs.value.known]).toEqual([false, true]);
    expect(theirs.value.variantId).toBe(mine.value.variantId);
    const names = await db.shelfEntry.findMany({ where: { variantId: mine.value.variantId } });
    expect(names.map(({ name }) => name).sort()).toEqual(["Millet as ever", "Soft millet"]);
  });

  it("shows its ratio by mass: cups by the USDA cup weight of raw millet, 200 g in 236.588 mL", async () => {
    const { db } = grounds;
    const grower = await newGrower(db, "Grower");
    const kept = await run(db, (tx) => registerVariant(tx, grower, { id: v7(), name: "Millet", content }));
    if (!kept.ok) throw new Error("it should be kept");
    // 1.25 × 0.998 g/mL ÷ (200 g / 236.588 mL), raw moisture 8.67 %: USDA SR28 entry 20031
    const ratio = (1.25 * 0.998) / (200 / 236.588);
    expect(kept.value.moisture!.waterMassPerGrainMass).toBeCloseTo(ratio, 2);
    expect(kept.value.moisture!.moisture).toBeCloseTo((0.0867 + ratio) / (1 + ratio), 3);
  });
});
