import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import {
  recipeView,
  registerVariant,
  renameRecipe,
  shelfView,
  takeOffShelf,
} from "@/lib/services/growing/variants";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { BARLEY_RECIPE } from "../engine/grain/recipes";
import { newGrower, newOpenTrial, ownGrounds, run } from "./growing-fixture";

const grounds = ownGrounds();

const quinoa = (changes: Partial<VariantContent> = {}): VariantContent => ({
  ...BARLEY_RECIPE,
  grain: "quinoa",
  rinsed: true,
  cookMinutes: 15,
  ...changes,
});

async function writeDown(actor: Actor, content: VariantContent, name = "Quinoa", followsVariantId?: string) {
  const entry = { id: v7(), name, content, followsVariantId };
  const saved = await run(grounds.db, (tx) => registerVariant(tx, actor, entry));
  if (!saved.ok) throw new Error(saved.reason);
  return saved.value;
}

describe("versions of a recipe", () => {
  it("stand in a row behind the latest, and never in a circle", async () => {
    const { db } = grounds;
    const grower = await newGrower(db, "Versions");
    const first = await writeDown(grower, quinoa(), "Plain");
    const second = await writeDown(grower, quinoa({ cookMinutes: 40 }), "Longer", first.variantId);
    const third = await writeDown(grower, quinoa({ cookMinutes: 60 }), "Longest", second.variantId);
    // Back to what the first one was: the same recipe, renamed, and nothing follows itself.
    const again = await writeDown(grower, quinoa(), "Plain again", third.variantId);
    expect(again).toMatchObject({ variantId: first.variantId, known: true });
    const shelf = await shelfView(db, grower);
    expect(shelf.filter(({ hasLater }) => !hasLater).map(({ name }) => name)).toEqual(["Longest"]);
    const view = await recipeView(db, grower, third.variantId);
    expect(view?.earlier.map(({ name }) => name)).toEqual(["Longer", "Plain again"]);
    expect(await run(db, (tx) => takeOffShelf(tx, grower, second.variantId))).toMatchObject({ ok: true });
    const left = await recipeView(db, grower, third.variantId);
    expect(left?.earlier.map(({ name }) => name)).toEqual(["Plain again"]);
    expect(await db.protocolVariant.count({ where: { id: second.variantId } })).toBe(1);
  });

  it("follow only what stands on one's own shelf", async () => {
    const { db } = grounds;
    const [one, other] = [await newGrower(db, "One"), await newGrower(db, "Other")];
    const theirs = await writeDown(one, quinoa({ soakHours: 12 }));
    const entry = {
      id: v7(),
      name: "Mine",
      content: quinoa({ soakHours: 20 }),
      followsVariantId: theirs.variantId,
    };
    expect(await run(db, (tx) => registerVariant(tx, other, entry))).toEqual({
      ok: false,
      reason: "NOT_FOUND",
    });
    expect(await db.protocolVariant.count({ where: { id: entry.id } })).toBe(0);
  });
});

describe("a shelf", () => {
  it("is its owner's to rename and clear, and nobody else's", async () => {
    const { db } = grounds;
    const [owner, other] = [await newGrower(db, "Owner"), await newGrower(db, "Stranger")];
    const { variantId } = await writeDown(owner, quinoa({ cookMinutes: 90 }), "Long");
    const rename = (actor: Actor) =>
      run(db, (tx) => renameRecipe(tx, actor, { variantId, name: "Very long" }));
    expect(await rename(other)).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect(await run(db, (tx) => takeOffShelf(tx, other, variantId))).toEqual({
      ok: false,
      reason: "NOT_FOUND",
    });
    expect(await recipeView(db, other, variantId)).toBeNull();
    expect(await rename(owner)).toMatchObject({ ok: true });
    expect(await recipeView(db, owner, variantId)).toMatchObject({ name: "Very long" });
    expect(await run(db, (tx) => takeOffShelf(tx, owner, variantId))).toMatchObject({ ok: true });
    expect(await recipeView(db, owner, variantId)).toBeNull();
  });
});

describe("near twins", () => {
  it("come from one's own shelf and from opened trials, never from another's shelf", async () => {
    const { db } = grounds;
    const [one, other] = [await newGrower(db, "Twin"), await newGrower(db, "Neighbour")];
    const trial = await newOpenTrial(db); // has pearl barley, whole, 1 : 1 by weight, 20 minutes, not rinsed
    await writeDown(other, quinoa({ cookMinutes: 17, rinsed: false }), "Neighbour's secret");
    const own = await writeDown(one, quinoa({ cookMinutes: 18, soakHours: 1 }), "My quinoa");
    const near = await writeDown(one, quinoa({ cookMinutes: 16, soakHours: 1 }), "My other quinoa");
    expect(near.twins).toMatchObject([
      { variantId: own.variantId, name: "My quinoa", differences: ["cookMinutes"], trials: [] },
    ]);
    const barley = quinoa({ grain: "barley-pearl", waterToGrain: 1, cookMinutes: 22 });
    const [twin] = (await writeDown(one, barley, "Barley")).twins;
    expect(twin).toMatchObject({ name: null, differences: ["cookMinutes", "rinsed"] });
    const { slug } = await db.trial.findUniqueOrThrow({ where: { id: trial.id } });
    expect(twin?.trials.map((each) => each.slug)).toEqual([slug]);
  });

  it("leave out what a draft holds", async () => {
    const { db } = grounds;
    const grower = await newGrower(db, "Curious");
    const [lead, content] = [await newGrower(db, "Lead"), quinoa({ grain: "teff", cookMinutes: 20 })];
    const { variantId } = await writeDown(lead, content, "For a trial to come");
    const draft = {
      slug: v7(),
      title: "Draft",
      question: "Which?",
      joinCode: v7(),
      boxesMin: 2,
      boxesMax: 3,
    };
    const ends = { endsOn: new Date("2027-06-30"), grouping: [] };
    const arms = { create: { id: v7(), variantId, code: "A", position: 1 } };
    await db.trial.create({ data: { id: v7(), ...draft, ...ends, arms } });
    expect((await writeDown(grower, { ...content, cookMinutes: 22 }, "Teff")).twins).toEqual([]);
  });
});
