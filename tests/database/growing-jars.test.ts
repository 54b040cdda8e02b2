import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { recordGrade } from "@/lib/services/growing/grades";
import { editJar, jarChoices, jarList, jarView, makeJar, removeJar } from "@/lib/services/growing/jars";
import type { JarInput } from "@/shared/schemas/jar";
import {
  drawnOuting,
  grade,
  joinedGrower,
  newGrower,
  newOpenTrial,
  ownGrounds,
  run,
} from "./growing-fixture";

const grounds = ownGrounds();
let owner: Actor;
let stranger: Actor;
/** Recorded: `weighed` with 300 g usable of 400, `whole` with 250.6 g not sorted, `unweighed`; and one not recorded. */
let boxes: Record<"weighed" | "whole" | "unweighed" | "unrecorded", string>;
let otherBox: string;

const inHours = (hours: number) => new Date(Date.now() + hours * 3_600_000).toISOString();

async function recordedSet(usable: number | null, total: number | null, who: Actor, boxId: string) {
  const { measures, ...rest } = grade(boxId, 60);
  const weight = (grams: number | null) => (grams === null ? null : { value: grams });
  const input = {
    ...rest,
    openedAt: inHours(-5),
    measures: { ...measures, usableMassG: weight(usable), totalMassG: weight(total) },
  };
  expect(await run(grounds.db, (tx) => recordGrade(tx, who, input))).toMatchObject({ ok: true });
}

beforeAll(async () => {
  const { db } = grounds;
  const trial = await newOpenTrial(db);
  const drawn = async () => {
    const who = await joinedGrower(db, trial);
    const set = await drawnOuting(db, trial, who);
    return { grower: who.grower, ids: set.boxes.map(({ id }) => id) };
  };
  const [own, other] = [await drawn(), await drawn()];
  owner = own.grower;
  stranger = await newGrower(db, "Stranger");
  const [weighed, whole, unweighed, unrecorded] = own.ids as [string, string, string, string];
  boxes = { weighed, whole, unweighed, unrecorded };
  otherBox = other.ids[0]!;
  await recordedSet(300, 400, owner, weighed);
  await recordedSet(null, 250.6, owner, whole);
  await recordedSet(null, null, owner, unweighed);
  await recordedSet(500, 500, other.grower, otherBox);
});

const jarOf = (grain: Partial<Record<string, number>>, changes: Partial<JarInput> = {}): JarInput => ({
  id: v7(),
  boxes: Object.entries(grain).map(([boxId, grainG]) => ({ boxId, grainG: grainG! })),
  sugarG: 100,
  madeAt: inHours(-1),
  ...changes,
});
const make = (who: Actor, input: JarInput) => run(grounds.db, (tx) => makeJar(tx, who, input));
const refusal = (reason: string) => ({ ok: false, reason });

describe("a jar", () => {
  it("holds grain of several boxes, and shows how long each waited and how dry the syrup is", async () => {
    const input = jarOf({ [boxes.weighed]: 100, [boxes.unweighed]: 50 }, { sugarG: 150 });
    expect(await make(owner, input)).toEqual({ ok: true, value: { jarId: input.id } });
    const jar = (await jarView(grounds.db, owner, input.id))!;
    expect(jar.boxes.map(({ grainG }) => grainG).sort()).toEqual([100, 50].sort());
    for (const { openedAt } of jar.boxes) {
      expect(Math.round((jar.madeAt.getTime() - openedAt!.getTime()) / 3_600_000)).toBe(4);
    }
    // The recipes of this trial have 1 or 1.5 g of water to a gram of raw grain: 54 to 64 % moisture cooked
    // (design figures of the moisture model), so that equal weights lie between 0.86 and 0.90 (Norrish).
    expect(jar.syrup!.waterActivityAtMost).toBeGreaterThan(0.86);
    expect(jar.syrup!.waterActivityAtMost).toBeLessThan(0.9);
    expect(await run(grounds.db, (tx) => removeJar(tx, owner, { id: v7(), jarId: input.id }))).toMatchObject({
      ok: true,
    });
  });

  it("takes no more of a box than was usable, or than it held where that was not weighed, over all jars", async () => {
    expect(await make(owner, jarOf({ [boxes.weighed]: 301 }))).toEqual(refusal("MORE_THAN_BOX_HELD"));
    const held = (await jarChoices(grounds.db, owner)).find(({ boxId }) => boxId === boxes.whole)!.leftG!;
    expect(held).toBe(250); // of 250.6 g: never more than there are
    expect(await make(owner, jarOf({ [boxes.whole]: held + 1 }))).toEqual(refusal("MORE_THAN_BOX_HELD"));
    expect((await make(owner, jarOf({ [boxes.whole]: held }))).ok).toBe(true);
    expect((await make(owner, jarOf({ [boxes.unweighed]: 5_000 }))).ok).toBe(true);
    const first = jarOf({ [boxes.weighed]: 200 });
    expect((await make(owner, first)).ok).toBe(true);
    expect(await make(owner, jarOf({ [boxes.weighed]: 101 }))).toEqual(refusal("MORE_THAN_BOX_HELD"));
    const choices = await jarChoices(grounds.db, owner);
    expect(choices.find(({ boxId }) => boxId === boxes.weighed)?.leftG).toBe(100);
    // What the jar itself holds doesn't stand in the way of correcting it.
    const edit = { ...jarOf({ [boxes.weighed]: 300 }), jarId: first.id, basedOn: 1 };
    expect((await run(grounds.db, (tx) => editJar(tx, owner, edit))).ok).toBe(true);
    await run(grounds.db, (tx) => removeJar(tx, owner, { id: v7(), jarId: first.id }));
  });

  it("never gets the same grain twice when two jars are made at once", async () => {
    const results = await Promise.all([1, 2, 3].map(() => make(owner, jarOf({ [boxes.weighed]: 200 }))));
    expect(results.filter(({ ok }) => ok)).toHaveLength(1);
    const made = results.find((result) => result.ok);
    if (made?.ok) await run(grounds.db, (tx) => removeJar(tx, owner, { id: v7(), jarId: made.value.jarId }));
  });

  it("is refused for a box not recorded, another's, none there, ahead of the clock and before the opening", async () => {
    expect(await make(owner, jarOf({ [boxes.unrecorded]: 10 }))).toEqual(refusal("BOX_NOT_RECORDED"));
    expect(await make(owner, jarOf({ [otherBox]: 10 }))).toEqual(refusal("NOT_FOUND"));
    expect(await make(owner, jarOf({ [boxes.unweighed]: 10, [otherBox]: 10 }))).toEqual(refusal("NOT_FOUND"));
    expect(await make(stranger, jarOf({ [boxes.unweighed]: 10 }))).toEqual(refusal("NOT_FOUND"));
    expect(await make(owner, jarOf({ [v7()]: 10 }))).toEqual(refusal("NOT_FOUND"));
    const early = { madeAt: inHours(-6) };
    expect(await make(owner, jarOf({ [boxes.unweighed]: 10 }, early))).toEqual(refusal("JAR_BEFORE_OPENING"));
    const ahead = { madeAt: inHours(1) };
    expect(await make(owner, jarOf({ [boxes.unweighed]: 10 }, ahead))).toEqual(refusal("MOMENT_IN_FUTURE"));
  });

  it("is its owner's alone to see, correct and delete, and an unrecorded box is offered to nobody", async () => {
    const { db } = grounds;
    const input = jarOf({ [boxes.unweighed]: 10 });
    await make(owner, input);
    expect(await jarView(db, stranger, input.id)).toBeNull();
    expect((await jarList(db, stranger)).items).toEqual([]);
    expect(await jarChoices(db, stranger)).toEqual([]);
    const edit = { ...jarOf({ [boxes.unweighed]: 20 }), jarId: input.id, basedOn: 1 };
    expect(await run(db, (tx) => editJar(tx, stranger, edit))).toEqual(refusal("NOT_FOUND"));
    expect(await run(db, (tx) => removeJar(tx, stranger, { id: v7(), jarId: input.id }))).toEqual(
      refusal("NOT_FOUND"),
    );
    expect((await jarView(db, owner, input.id))!.boxes[0]!.grainG).toBe(10);
    const offered = (await jarChoices(db, owner)).map(({ boxId }) => boxId);
    expect(offered).not.toContain(boxes.unrecorded);
    expect(offered).toHaveLength(3);
    // Somebody else's boxes don't get into a jar by correcting it either.
    const theirs = { ...jarOf({ [otherBox]: 20 }), jarId: input.id, basedOn: 1 };
    expect(await run(db, (tx) => editJar(tx, owner, theirs))).toEqual(refusal("NOT_FOUND"));
  });

  it("is corrected from what stands: of two corrections begun at once the later is refused", async () => {
    const { db } = grounds;
    const input = jarOf({ [boxes.unweighed]: 10 });
    await make(owner, input);
    const correct = (grainG: number, basedOn: number) => {
      const edit = { ...jarOf({ [boxes.unweighed]: grainG }), jarId: input.id, basedOn };
      return run(db, (tx) => editJar(tx, owner, edit));
    };
    const both = await Promise.all([correct(20, 1), correct(30, 1)]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both).toContainEqual(refusal("CHANGED_MEANWHILE"));
    const jar = (await jarView(db, owner, input.id))!;
    expect([jar.version, jar.boxes[0]!.grainG]).toEqual([2, both[0]!.ok ? 20 : 30]);
    expect(await correct(40, 1)).toEqual(refusal("CHANGED_MEANWHILE"));
    expect((await correct(40, 2)).ok).toBe(true);
  });

  it("is listed with the newest first, page by page", async () => {
    const { db } = grounds;
    for (let i = 0; i < 22; i++) await make(owner, jarOf({ [boxes.unweighed]: 1 }));
    const first = await jarList(db, owner);
    expect(first.items).toHaveLength(20);
    const second = await jarList(db, owner, first.next!);
    expect(second.next).toBeNull();
    const ids = [...first.items, ...second.items].map(({ id }) => id);
    expect(ids).toEqual([...ids].sort().reverse());
    expect(new Set(ids).size).toBe(await db.jar.count({ where: { growerId: owner.growerId } }));
  });
});
