import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import { ownData } from "@/lib/data/own-data";
import { recordBoxEvent } from "@/lib/services/growing/box-events";
import { recordGrade } from "@/lib/services/growing/grades";
import { changePin, recordSetReport } from "@/lib/services/growing/outing-report";
import { outingView } from "@/lib/services/growing/outing-view";
import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import type { BoxEventInput, SetReport } from "@/shared/schemas/box-event";
import type { OutingInput } from "@/shared/schemas/outing";
import {
  drawnOuting,
  grade,
  joinedGrower,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  run,
} from "./growing-fixture";

const grounds = ownGrounds();
let trial: OpenTrial;
let who: Joined;
beforeAll(async () => {
  const boxLimits = { kinds: null, grainDepthCm: { min: 0.5, max: 7.5 }, minSpacingCm: 50 };
  trial = await newOpenTrial(grounds.db, 40, { ...DEFAULT_PLAN_CHOICES, boxLimits });
});

type Joined = Awaited<ReturnType<typeof joinedGrower>>;
const refused = (reason: string) => ({ ok: false, reason });
const ago = (hours: number) => new Date(Date.now() - hours * 3_600_000).toISOString();

/** A drawn set of a grower of its own, so that no set stands in another's way. */
async function drawn(boxes = 3): Promise<OutingInput> {
  who = await joinedGrower(grounds.db, trial);
  return drawnOuting(grounds.db, trial, who, boxes);
}

type Told = SetReport["told"][number];
const told = (boxId: string, kind: Told["kind"], detail: Told["detail"] = null): Told => ({
  id: v7(),
  boxId,
  kind,
  detail,
});
const reportBy = ({ grower }: Joined, outingId: string, events: Told[], more: Partial<SetReport> = {}) =>
  run(grounds.db, (tx) =>
    recordSetReport(tx, grower, {
      id: v7(),
      outingId,
      occurredAt: ago(0),
      told: events,
      standing: null,
      pin: null,
      note: null,
      ...more,
    }),
  );
const report = (outingId: string, events: Told[], more: Partial<SetReport> = {}) =>
  reportBy(who, outingId, events, more);
const tell = (boxId: string, changes: Partial<BoxEventInput>) =>
  run(grounds.db, (tx) =>
    recordBoxEvent(tx, who.grower, {
      id: v7(),
      boxId,
      kind: "withdrawal",
      occurredAt: ago(0),
      withdrawsId: null,
      note: null,
      ...changes,
    }),
  );
const view = async (id: string) => (await grounds.db.$transaction((tx) => outingView(tx, who.grower, id)))!;
const all = (set: OutingInput, kind: Told["kind"]) => set.boxes.map(({ id }) => told(id, kind));

const PIN = {
  latitude: 43.36214,
  longitude: -5.84532,
  accuracyM: 7,
  source: "phone" as const,
  takenAt: ago(0),
};

describe("a report of a set", () => {
  it("keeps one event for each box, how they stand and own words; a box of another set keeps nothing of it", async () => {
    const set = await drawn();
    const other = { set: await drawn(), who };
    who = await joinedGrower(grounds.db, trial);
    const mine = await drawn();
    const foreign = [...all(mine, "set-out"), told(other.set.boxes[0]!.id, "set-out")];
    expect(await report(mine.id, foreign)).toEqual(refused("NOT_FOUND"));
    expect(await report(set.id, all(set, "set-out"))).toEqual(refused("NOT_FOUND"));
    expect(await grounds.db.boxEvent.count({ where: { box: { outingId: mine.id } } })).toBe(0);

    const more = { standing: { sunkCm: 2.5, spacingCm: 80 }, note: "Under the third alder." };
    expect(await report(mine.id, all(mine, "set-out"), more)).toMatchObject({ ok: true });
    const page = await view(mine.id);
    expect(page).toMatchObject({ standing: { sunkCm: 2.5, spacingCm: 80 }, due: { kind: "fetch" } });
    expect(page.boxes.every(({ step }) => step === "fetch")).toBe(true);
    expect(await grounds.db.freeText.count({ where: { accountId: who.grower.accountId } })).toBe(1);
  });

  it("is refused where the boxes stand closer than the trial wants, whole", async () => {
    const set = await drawn();
    const standing = { sunkCm: null, spacingCm: 49 };
    expect(await report(set.id, all(set, "set-out"), { standing })).toEqual(refused("SPACING_BELOW_LIMIT"));
    expect((await view(set.id)).due.kind).toBe("cook");
    const open = { standing: { sunkCm: null, spacingCm: null } };
    expect(await report(set.id, all(set, "set-out"), open)).toMatchObject({ ok: true });
  });

  it("keeps stages in order: none twice, none before an earlier one; what was told wrongly is taken back and told late", async () => {
    const set = await drawn();
    const [first] = set.boxes;
    const setOut = told(first!.id, "set-out");
    expect(await report(set.id, [setOut], { occurredAt: ago(2) })).toMatchObject({ ok: true });
    const at = (kind: Told["kind"], hours: number) =>
      report(set.id, [told(first!.id, kind)], { occurredAt: ago(hours) });
    expect(await at("set-out", 1)).toEqual(refused("STAGE_ON_RECORD"));
    expect(await at("fetched", 3)).toEqual(refused("FETCHED_BEFORE_SET_OUT"));
    expect(await at("opened", 3)).toEqual(refused("OPENED_BEFORE_SET_OUT"));
    expect(await at("fetched", -1)).toEqual(refused("MOMENT_IN_FUTURE"));
    expect(await at("fetched", 1)).toMatchObject({ ok: true });
    expect(await at("opened", 1.5)).toEqual(refused("OPENED_BEFORE_FETCHED"));
    const record = { ...grade(first!.id, 40), openedAt: ago(1.5) };
    expect(await run(grounds.db, (tx) => recordGrade(tx, who.grower, record))).toEqual(
      refused("OPENED_BEFORE_FETCHED"),
    );
    const late = { kind: "set-out" as const, withdrawsId: setOut.id };
    expect(await tell(first!.id, { ...late, occurredAt: ago(0.5) })).toEqual(
      refused("FETCHED_BEFORE_SET_OUT"),
    );
    expect(await tell(first!.id, { ...late, occurredAt: ago(4) })).toMatchObject({ ok: true });
    expect(await at("opened", 0.5)).toMatchObject({ ok: true });
  });

  it("leaves boxes that stay out waiting for their own fetching, and a look in is no loss", async () => {
    const set = await drawn();
    const [first, second, third] = set.boxes.map(({ id }) => id) as [string, string, string];
    await report(set.id, all(set, "set-out"), { occurredAt: ago(2) });
    expect(await report(set.id, [told(third, "looked-in")])).toMatchObject({ ok: true });
    await report(set.id, [told(first, "fetched"), told(first, "nothing-happened")]);
    expect((await view(set.id)).due).toMatchObject({ kind: "record", positions: [1] });
    for (const box of [first, second]) {
      expect(await run(grounds.db, (tx) => recordGrade(tx, who.grower, grade(box, 50)))).toMatchObject({
        ok: true,
      });
    }
    expect((await view(set.id)).due).toMatchObject({ kind: "fetch", positions: [3] });
  });
});

describe("what follows from an event", () => {
  const stepOf = async (setId: string, position: number) => (await view(setId)).boxes[position - 1]!;

  it("whose label is gone: told by its place it goes on, unsure it stays unidentified and its growth unrecorded", async () => {
    const set = await drawn();
    const [first, second] = set.boxes.map(({ id }) => id) as [string, string];
    await report(set.id, all(set, "set-out"));
    const unsure = told(second, "label-gone", { kind: "label-gone", known: false });
    const known = told(first, "label-gone", { kind: "label-gone", known: true });
    expect(await report(set.id, [known, unsure])).toMatchObject({ ok: true });
    expect((await stepOf(set.id, 1)).step).toBe("fetch");
    const box = await stepOf(set.id, 2);
    expect(box.step).toBe("none");
    expect(box.events.at(-1)).toMatchObject({
      kind: "growth-not-recordable",
      detail: { reason: "unidentified", becauseOf: unsure.id },
    });

    const [row] = await grounds.db.$queryRaw<{ unrecordable: boolean }[]>`
      SELECT unrecordable FROM drawn_boxes(${trial.id}::uuid, NULL) WHERE box_id = ${second}::uuid`;
    expect(row!.unrecordable).toBe(true);

    expect(await tell(second, { withdrawsId: unsure.id })).toMatchObject({ ok: true });
    expect((await stepOf(set.id, 2)).step).toBe("fetch");
  });

  it("that was not cooked has no growth to record until that is taken back", async () => {
    const set = await drawn();
    const [first] = set.boxes;
    const spoilt = told(first!.id, "not-cooked", { kind: "not-cooked", reason: "spoilt" });
    expect(await report(set.id, [spoilt])).toMatchObject({ ok: true });
    expect((await stepOf(set.id, 1)).step).toBe("none");
    expect(await tell(first!.id, { kind: "cooked-as-drawn", withdrawsId: spoilt.id })).toMatchObject({
      ok: true,
    });
    const box = await stepOf(set.id, 1);
    expect(box.step).toBe("set-out");
    expect(box.events.map(({ kind }) => kind)).toEqual(["cooked-as-drawn"]);
  });

  it("that was cooked otherwise keeps what differed", async () => {
    const set = await drawn();
    const [first] = set.boxes;
    const detail = {
      kind: "cooked-otherwise" as const,
      differs: ["other-grain" as const, "longer" as const],
      grain: "rye" as const,
      cookMinutes: 55,
    };
    expect(await report(set.id, [told(first!.id, "cooked-otherwise", detail)])).toMatchObject({ ok: true });
    expect((await stepOf(set.id, 1)).events[0]!.detail).toEqual(detail);
  });
});

describe("the pin of a set", () => {
  const change = ({ grower }: Joined, outingId: string, pin: typeof PIN | null) =>
    run(grounds.db, (tx) => changePin(tx, grower, { id: v7(), outingId, pin }));

  it("is kept only once a box is out, for its owner's eyes, and is erased when its owner likes", async () => {
    const set = await drawn();
    const owner = who;
    expect(await change(owner, set.id, PIN)).toEqual(refused("NOT_SET_OUT_YET"));
    await report(set.id, all(set, "set-out"), { pin: PIN });
    expect((await view(set.id)).pin).toMatchObject({ latitude: 43.36214, longitude: -5.84532 });

    const stranger = await joinedGrower(grounds.db, trial);
    const household = await joinedGrower(grounds.db, trial, owner.grower.householdId);
    for (const other of [stranger, household]) {
      expect(await change(other, set.id, { ...PIN, latitude: 1 })).toEqual(refused("NOT_FOUND"));
      expect(await change(other, set.id, null)).toEqual(refused("NOT_FOUND"));
      expect(await reportBy(other, set.id, all(set, "fetched"))).toEqual(refused("NOT_FOUND"));
      const theirs = await grounds.db.$transaction((tx) => ownData(tx, other.grower));
      expect(JSON.stringify(theirs)).not.toContain("43.36214");
    }
    const mine = await grounds.db.$transaction((tx) => ownData(tx, owner.grower));
    expect(JSON.stringify(mine)).toContain("43.36214");

    expect(await change(owner, set.id, { ...PIN, latitude: 43.4 })).toMatchObject({ ok: true });
    expect((await view(set.id)).pin!.latitude).toBe(43.4);
    expect(await change(owner, set.id, null)).toMatchObject({ ok: true });
    expect(await grounds.db.outingPin.count({ where: { outingId: set.id } })).toBe(0);
  });

  it("goes with its owner's account", async () => {
    const set = await drawn();
    await report(set.id, all(set, "set-out"), { pin: PIN });
    await grounds.db.account.delete({ where: { id: who.grower.accountId } });
    expect(await grounds.db.outingPin.count({ where: { outingId: set.id } })).toBe(0);
    expect(await grounds.db.boxEvent.count({ where: { box: { outingId: set.id } } })).toBe(3);
  });
});
