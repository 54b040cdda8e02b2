import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { lockOwnSite } from "@/lib/data/sites";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { planningView } from "@/lib/services/growing/planning-view";
import { changeSite, registerSite, siteView, siteViews } from "@/lib/services/growing/sites";
import { siteChangeSchema, siteSchema } from "@/shared/schemas/site";
import { siteTraitsSchema } from "@/shared/schemas/site-traits";
import type { Permission } from "@/shared/vocabulary/place";
import {
  coastSite,
  joinedGrower,
  newGrower,
  newOpenTrial,
  ownGrounds,
  plan,
  run,
  somebodyWaits,
} from "./growing-fixture";

const grounds = ownGrounds();
let owner: Actor;
let stranger: Actor;
beforeAll(async () => {
  owner = await newGrower(grounds.db, "Owner");
  stranger = await newGrower(grounds.db, "Stranger");
});

const traits = siteTraitsSchema.parse({
  canopy: { value: "broken" },
  litterDepthCm: { value: 4.5 },
  whiteThreads: "cant_tell",
});

async function newSite(more: object = {}) {
  const site = siteSchema.parse({ ...coastSite(), ...more });
  expect(await run(grounds.db, (tx) => registerSite(tx, owner, site))).toMatchObject({ ok: true });
  return site;
}

const change = (siteId: string, more: object, basedOn = 1) =>
  siteChangeSchema.parse({ id: v7(), siteId, basedOn, name: "Beech wood", ...more });

const today = () => new Date().toISOString().slice(0, 10);

describe("a place", () => {
  it("keeps what was said of it; what wasn't stays open and nothing is preset", async () => {
    const { db } = grounds;
    const bare = await newSite({ permission: undefined });
    const told = await newSite({ traits, permission: "asked-and-given", note: "Gate on the left" });
    expect(await siteView(db, owner, bare.id)).toMatchObject({
      traits: siteTraitsSchema.parse({}),
      permission: null,
      standing: "never-asked",
      note: null,
    });
    expect(await siteView(db, owner, told.id)).toMatchObject({
      traits,
      permission: { kind: "asked-and-given", on: today() },
      standing: "said",
      note: "Gate on the left",
    });
    expect(traits.sun).toBeNull();
  });

  it("changes by its owner only", async () => {
    const { db } = grounds;
    const site = await newSite({ note: "Mine" });
    const theirs = change(site.id, { name: "Taken", note: "x" });
    expect(await run(db, (tx) => changeSite(tx, stranger, theirs))).toEqual({
      ok: false,
      reason: "NOT_FOUND",
    });
    expect(await siteView(db, stranger, site.id)).toBeNull();
    expect((await siteViews(db, stranger)).length).toBe(0);
    expect(await siteView(db, owner, site.id)).toMatchObject({ name: "Beech wood", note: "Mine" });
  });

  it("keeps a permission's day while other things change, and dates a new answer", async () => {
    const { db } = grounds;
    const site = await newSite({ permission: "own-land" });
    const old = new Date("2026-01-15");
    await db.sitePlace.update({ where: { siteId: site.id }, data: { permissionOn: old } });
    await run(db, (tx) => changeSite(tx, owner, change(site.id, { traits, note: "New words" })));
    expect(await siteView(db, owner, site.id)).toMatchObject({
      permission: { kind: "own-land", on: "2026-01-15" },
      standing: "out-of-date",
      traits,
    });
    await run(db, (tx) => changeSite(tx, owner, change(site.id, { permission: "own-land" }, 2)));
    expect(await siteView(db, owner, site.id)).toMatchObject({ standing: "said", traits, note: "New words" });
  });

  it("holds its owner's words once, and none when they are taken away", async () => {
    const { db } = grounds;
    const site = await newSite({ note: "First" });
    await run(db, (tx) => changeSite(tx, owner, change(site.id, { note: "Second" })));
    expect(await db.freeText.findMany({ where: { subjectId: site.id } })).toMatchObject([{ text: "Second" }]);
    await run(db, (tx) => changeSite(tx, owner, change(site.id, { note: "  " }, 2)));
    expect(await db.freeText.count({ where: { subjectId: site.id } })).toBe(0);
  });

  it("moves with its climate until a set of boxes was planned there, and then stays", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { grower, siteId } = await joinedGrower(db, trial);
    const move = async (whereabouts: object) => {
      const basedOn = (await siteView(db, grower, siteId))!.version;
      return run(db, (tx) => changeSite(tx, grower, change(siteId, { whereabouts }, basedOn)));
    };
    // Near Toledo: dry summers, where the coast has rain all year (Köppen–Geiger, WMO normals 1991–2020).
    expect(await move({ latitude: 39.9, longitude: -4, elevationM: 520 })).toMatchObject({ ok: true });
    const moved = await db.site.findUniqueOrThrow({ where: { id: siteId } });
    expect(moved.koppenClass).not.toBe("Cfb");
    expect(await move({ latitude: -48.9, longitude: -123.4, elevationM: 0 })).toEqual({
      ok: false,
      reason: "NO_CLIMATE_HERE",
    });
    const coast = { latitude: 43.5, longitude: -5.7, elevationM: 30 };
    expect(await move(coast)).toMatchObject({ ok: true });
    expect(await run(db, (tx) => planOuting(tx, grower, plan(trial, siteId, 2)))).toMatchObject({ ok: true });
    expect(await move(coast)).toEqual({ ok: false, reason: "PLACE_HAS_SETS" });
    const { version } = (await siteView(db, grower, siteId))!;
    const rename = change(siteId, { name: "By the kiln" }, version);
    const renamed = await run(db, (tx) => changeSite(tx, grower, rename));
    expect(renamed).toMatchObject({ ok: true });
    expect(await siteView(db, grower, siteId)).toMatchObject({ name: "By the kiln", latitude: 43.5 });
  });

  it("changes from what stands: of two changes begun at once the later is refused, and loses nothing", async () => {
    const { db } = grounds;
    const site = await newSite({ note: "Mine" });
    const both = await Promise.all(
      ["Left", "Right"].map((name) => run(db, (tx) => changeSite(tx, owner, change(site.id, { name })))),
    );
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both).toContainEqual({ ok: false, reason: "CHANGED_MEANWHILE" });
    const name = both[0]!.ok ? "Left" : "Right";
    expect(await siteView(db, owner, site.id)).toMatchObject({ name, note: "Mine", version: 2 });
  });

  it("takes the answer whether boxes may stand there when a set is planned, and only where it is missing", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { grower, siteId } = await joinedGrower(db, trial);
    const planWith = (permission?: Permission) =>
      run(db, (tx) => planOuting(tx, grower, { ...plan(trial, siteId, 2), permission }));
    const standing = async () => (await planningView(db, grower, trial.id))!.sites[0]!.standing;
    expect([await standing(), (await planWith()).ok]).toEqual(["said", true]);

    const needed = { ok: false, reason: "PERMISSION_NEEDED" };
    const lastYear = { permissionOn: new Date(Date.now() - 200 * 24 * 3_600_000) };
    await db.sitePlace.update({ where: { siteId }, data: lastYear });
    expect([await standing(), await planWith()]).toEqual(["out-of-date", needed]);
    expect(await planWith("not-yet")).toEqual(needed);
    expect((await siteView(db, grower, siteId))?.standing).toBe("out-of-date"); // a refusal keeps nothing
    expect((await planWith("own-land")).ok).toBe(true);
    expect(await siteView(db, grower, siteId)).toMatchObject({
      permission: { kind: "own-land", on: today() },
      standing: "said",
      version: 2,
    });
    expect((await planWith()).ok).toBe(true);
  });

  it("stays where it is while a set is planned there, and neither waits for the other in a circle", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { grower, siteId } = await joinedGrower(db, trial);
    const toledo = { latitude: 39.9, longitude: -4, elevationM: 520 };
    let planned: ReturnType<typeof planOuting> | undefined;
    const moved = await run(db, async (tx) => {
      await lockOwnSite(tx, grower.growerId, siteId);
      const set = { ...plan(trial, siteId, 2), permission: "own-land" } as const;
      planned = run(db, (other) => planOuting(other, grower, set));
      await expect.poll(() => somebodyWaits(tx), { timeout: 10_000 }).toBe(true);
      return changeSite(tx, grower, change(siteId, { whereabouts: toledo }));
    });
    expect(moved).toMatchObject({ ok: true });
    expect(await planned).toEqual({ ok: false, reason: "SITE_OUTSIDE_REGION" });
  });

  it("is refused finer than 0.1°, with a depth nobody believes, or an answer that isn't there", () => {
    const codes = (more: object) =>
      siteSchema.safeParse({ ...coastSite(), ...more }).error?.issues.map(({ message }) => message);
    expect(codes({ latitude: 43.53 })).toEqual(["site.latitude.tooFine"]);
    expect(codes({ traits: { litterDepthCm: { value: 61 } } })).toEqual(["site.litterDepth.range"]);
    expect(codes({ traits: { canopy: { value: "<b>dense</b>" } } })).toEqual(["site.trait.unknown"]);
    expect(codes({ permission: "surely" })).toEqual(["site.permission.unknown"]);
    expect(codes({ note: "x".repeat(501) })).toEqual(["note.long"]);
    const moved = siteChangeSchema.safeParse({
      ...change(v7(), {}),
      whereabouts: { latitude: 43.55, longitude: 0, elevationM: 0 },
    });
    expect(moved.error?.issues[0]?.path.join(".")).toBe("whereabouts.latitude");
  });
});
