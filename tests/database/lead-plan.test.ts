import { createHash } from "node:crypto";
import canonicalize from "canonicalize";
import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { planHash } from "@/lib/engine/design/plan";
import { ownDataDocument } from "@/lib/services/accounts/own-data";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { recordGrade } from "@/lib/services/growing/grades";
import { joinTrial } from "@/lib/services/growing/join";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { registerSite } from "@/lib/services/growing/sites";
import { registerVariant } from "@/lib/services/growing/variants";
import { amendPlan } from "@/lib/services/lead/amend";
import { saveChoices } from "@/lib/services/lead/choices";
import { closeTrial } from "@/lib/services/lead/close";
import { editDraft, makeDraft } from "@/lib/services/lead/draft";
import { addArms, removeArm } from "@/lib/services/lead/draft-arms";
import { openTrial } from "@/lib/services/lead/open";
import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import { leadTrialView } from "@/lib/services/lead/read";
import { planHistory } from "@/lib/services/plan-history";
import { AGREEMENT_VERSION } from "@/shared/schemas/enrolment";
import { type PlanChoices, trialPlanSchema } from "@/shared/schemas/plan";
import type { PlanChange } from "@/shared/schemas/plan-amendment";
import { type TrialDraftInput, trialDraftSchema } from "@/shared/schemas/trial-draft";
import { BARLEY_RECIPE } from "../engine/grain/recipes";
import { coastSite, grade, newGrower, ownGrounds, plan, run } from "./growing-fixture";

const NOW = new Date();
const DAY_MS = 24 * 3_600_000;
const dayFromNow = (days: number) => new Date(NOW.getTime() + days * DAY_MS).toISOString().slice(0, 10);
const REASON = "Invented: too few boxes so far.";

const grounds = ownGrounds();
let lead: Actor;
let variants: string[];

beforeAll(async () => {
  lead = { ...(await newGrower(grounds.db, "Lead")), mayLead: true };
  variants = [await onShelf("barley-pearl"), await onShelf("spelt"), await onShelf("white-rice-long")];
});

async function onShelf(grain: "barley-pearl" | "spelt" | "white-rice-long"): Promise<string> {
  const content = { ...BARLEY_RECIPE, grain };
  const saved = await run(grounds.db, (tx) => registerVariant(tx, lead, { id: v7(), name: grain, content }));
  if (!saved.ok) throw new Error(saved.reason);
  return saved.value.variantId;
}

const draft = (change: Partial<TrialDraftInput> = {}): TrialDraftInput =>
  trialDraftSchema.parse({
    title: "Barley or spelt?",
    question: "Which of the two takes better?",
    boxesMin: 2,
    boxesMax: 6,
    endsOn: dayFromNow(100),
    grouping: [{ code: "mild-wet", classes: ["Cfb"] }],
    regions: [],
    newRegion: { name: "Invented north", south: 42, west: -9, north: 44, east: 1, capacity: 9 },
    ...change,
  });

async function newDraft(recipes = 2, change: Partial<TrialDraftInput> = {}): Promise<string> {
  const made = await run(grounds.db, (tx) => makeDraft(tx, lead, draft(change), NOW));
  if (!made.ok) throw new Error(made.reason);
  const { trialId } = made.value;
  for (const variantId of variants.slice(0, recipes)) {
    expect(
      await run(grounds.db, (tx) => addArms(tx, lead, { trialId, variantIds: [variantId] })),
    ).toMatchObject({
      ok: true,
    });
  }
  return trialId;
}

const save = (trialId: string, choices: Partial<PlanChoices>) =>
  run(grounds.db, (tx) =>
    saveChoices(tx, lead, { trialId, choices: { ...DEFAULT_PLAN_CHOICES, ...choices } }),
  );
const open = (trialId: string, now = NOW) => run(grounds.db, (tx) => openTrial(tx, lead, { trialId }, now));
const close = (trialId: string, now = NOW) => run(grounds.db, (tx) => closeTrial(tx, lead, trialId, now));
const amend = (trialId: string, change: PlanChange, now = NOW) =>
  run(grounds.db, (tx) => amendPlan(tx, lead, { trialId, change, reason: REASON }, now));
const view = async (trialId: string, now = NOW) => {
  const found = await run(grounds.db, (tx) => leadTrialView(tx, lead, trialId, now));
  if (!found.ok) throw new Error(found.reason);
  return found.value;
};
const refused = (reason: string) => ({ ok: false, reason });

async function opened(
  choices: Partial<PlanChoices> = {},
  change: Partial<TrialDraftInput> = {},
): Promise<string> {
  const trialId = await newDraft(2, change);
  expect(await save(trialId, choices)).toMatchObject({ ok: true });
  expect(await open(trialId)).toMatchObject({ ok: true });
  return trialId;
}

interface Taking {
  readonly grower: Actor;
  readonly set: () => Promise<{ readonly outingId: string; readonly boxIds: string[] }>;
  readonly draw: (outingId: string) => ReturnType<typeof run<unknown, string>>;
}

/** A household that takes part in the trial with a place on the coast. */
async function takesPart(trialId: string): Promise<Taking> {
  const { db } = grounds;
  const grower = await newGrower(db, "Grower");
  const { joinCode } = await db.trial.findUniqueOrThrow({ where: { id: trialId } });
  const { regionId } = await db.trialRegion.findFirstOrThrow({ where: { trialId } });
  const join = { id: v7(), joinCode, regionId, agreementVersion: AGREEMENT_VERSION } as const;
  const site = coastSite();
  expect(await run(db, (tx) => joinTrial(tx, grower, join))).toMatchObject({ ok: true });
  expect(await run(db, (tx) => registerSite(tx, grower, site))).toMatchObject({ ok: true });
  const target = { id: trialId, joinCode, regionId, sealed: { trialId, planHash: "", seal: "" } };
  const set = async () => {
    const outing = plan(target, site.id, 4);
    expect(await run(db, (tx) => planOuting(tx, grower, outing))).toMatchObject({ ok: true });
    return { outingId: outing.id, boxIds: outing.boxes.map(({ id }) => id) };
  };
  const draw = (outingId: string) =>
    run<unknown, string>(db, (tx) => drawOuting(tx, grower, { id: v7(), outingId }));
  return { grower, set, draw };
}

/** A set drawn and its boxes recorded. */
async function recordedSet(taking: Taking): Promise<void> {
  const { outingId, boxIds } = await taking.set();
  expect(await taking.draw(outingId)).toMatchObject({ ok: true });
  for (const boxId of boxIds) {
    expect(await run(grounds.db, (tx) => recordGrade(tx, taking.grower, grade(boxId, 45)))).toMatchObject({
      ok: true,
    });
  }
}

describe("a draft", () => {
  it("says what it was last edited to say, its regions and seats included, and keeps its recipes", async () => {
    const trialId = await newDraft(3);
    const [kept] = (await view(trialId)).trial.regions;
    const input = draft({
      title: "Barley, spelt or rice?",
      boxesMax: 3,
      endsOn: dayFromNow(50),
      grouping: [{ code: "dry-summer", classes: ["Csa", "Csb"] }],
      regions: [{ regionId: kept!.regionId, capacity: 4 }],
      newRegion: { name: "Invented south", south: 36, west: -9, north: 40, east: 1, capacity: 7 },
    });
    expect(await run(grounds.db, (tx) => editDraft(tx, lead, { ...input, trialId }, NOW))).toMatchObject({
      ok: true,
    });
    const { trial } = await view(trialId);
    expect(trial).toMatchObject({
      title: "Barley, spelt or rice?",
      boxesMax: 3,
      endsOn: dayFromNow(50),
      grouping: [{ code: "dry-summer", classes: ["Csa", "Csb"] }],
    });
    expect(trial.slug).toMatch(/^barley-spelt-or-rice/);
    expect(trial.regions.map(({ capacity }) => capacity)).toEqual([4, 7]);
    expect(trial.arms).toHaveLength(3);
  });

  it("can't be edited into the past, by another, or once open", async () => {
    const trialId = await newDraft();
    const edit = (who: Actor, change: Partial<TrialDraftInput> = {}) =>
      run(grounds.db, (tx) => editDraft(tx, who, { ...draft(change), trialId }, NOW));
    const other = { ...(await newGrower(grounds.db, "Other")), mayLead: true, isAdmin: true };
    expect(await edit(other)).toEqual(refused("NOT_FOUND"));
    expect(await edit(lead, { endsOn: dayFromNow(0) })).toEqual(refused("ENDS_IN_PAST"));
    expect(await edit(lead, { regions: [{ regionId: v7(), capacity: 3 }] })).toEqual(
      refused("UNKNOWN_REGION"),
    );
    expect(await open(trialId)).toMatchObject({ ok: true });
    expect(await edit(lead)).toEqual(refused("TRIAL_NOT_DRAFT"));
    expect(await save(trialId, {})).toEqual(refused("TRIAL_NOT_DRAFT"));
  });

  it("keeps its reference recipe whatever else is taken out", async () => {
    const trialId = await newDraft(3);
    const reference = (arm: string) =>
      save(trialId, { primaryComparison: { kind: "against-reference", arm } });
    expect(await reference("D")).toEqual(refused("REFERENCE_NOT_IN_TRIAL"));
    expect(await reference("C")).toMatchObject({ ok: true });
    const [first, , third] = (await view(trialId)).trial.arms;
    const remove = (armId: string) => run(grounds.db, (tx) => removeArm(tx, lead, { trialId, armId }));
    expect(await remove(third!.id)).toEqual(refused("RECIPE_IS_REFERENCE"));
    expect(await remove(first!.id)).toMatchObject({ ok: true });
    const after = await view(trialId);
    expect(after.trial.arms.map(({ variantId, code }) => [code, variantId])).toContainEqual([
      "B",
      third!.variantId,
    ]);
    expect(after.choices.primaryComparison).toEqual({ kind: "against-reference", arm: "B" });
  });
});

describe("opening", () => {
  it("freezes the choices made for the plan under its hash, and the database keeps them", async () => {
    const { db } = grounds;
    const choices = {
      ...DEFAULT_PLAN_CHOICES,
      minimum: { boxesPerCell: 8, growersPerCell: 4 },
      margin: 0.4,
      looks: { count: 3, spending: "obrien-fleming-type" },
      endsAtBoxes: 200,
      earlyCloseRule: "never",
      fetchRule: { kind: "staged", afterDays: [5, 9] },
      meetAgainShare: 0.3,
      primaryComparison: { kind: "against-reference", arm: "A" },
    } satisfies PlanChoices;
    const trialId = await opened(choices);
    const trial = await db.trial.findUniqueOrThrow({ where: { id: trialId } });
    const frozen = trialPlanSchema.parse(trial.plan);
    expect(frozen).toMatchObject(choices);
    // RFC 8785 by its own author's package and Node's SHA-256.
    expect(trial.planHash).toBe(createHash("sha256").update(canonicalize(trial.plan)!).digest("hex"));
    expect(planHash(frozen)).toBe(trial.planHash);
    const change = db.$executeRaw`UPDATE trial SET plan_choices = '{}' WHERE id = ${trialId}::uuid`;
    await expect(change).rejects.toThrow(/frozen since it opened/);
    const drop = db.$executeRaw`DELETE FROM trial_region WHERE trial_id = ${trialId}::uuid`;
    await expect(drop).rejects.toThrow(/stays in its trial/);
  });

  it("is refused while the plan can't be kept", async () => {
    const trialId = await newDraft(2, { endsOn: dayFromNow(10) });
    const withChoices = async (choices: Partial<PlanChoices>) => {
      expect(await save(trialId, choices)).toMatchObject({ ok: true });
      return (await view(trialId)).openingFaults;
    };
    expect(await withChoices({ fetchRule: { kind: "staged", afterDays: [4, 11] } })).toEqual([
      "FETCH_AFTER_END",
    ]);
    expect(await open(trialId)).toEqual(refused("FETCH_AFTER_END"));
    expect(await withChoices({ fetchRule: { kind: "same-day", afterDays: 11 } })).toEqual([
      "FETCH_AFTER_END",
    ]);
    expect(await withChoices({ endsAtBoxes: 9 })).toEqual(["ENDS_BEFORE_MINIMUM"]);
    expect(
      await withChoices({ endsAtBoxes: 9, fetchRule: { kind: "same-day", afterDays: 11 } }),
      "all of them, so that the lead sees them at once",
    ).toEqual(["FETCH_AFTER_END", "ENDS_BEFORE_MINIMUM"]);
    expect(await withChoices({ endsAtBoxes: 10, fetchRule: { kind: "same-day", afterDays: 10 } })).toEqual(
      [],
    );
    expect(await open(trialId, new Date(NOW.getTime() + 10 * DAY_MS))).toEqual(refused("ENDS_IN_PAST"));
    expect(await open(trialId)).toMatchObject({ ok: true });
  });
});

describe("amending an open plan", () => {
  it("chains each amendment to the one before and the first to the plan, and leaves the plan as it is", async () => {
    const { db } = grounds;
    const trialId = await opened();
    const before = await db.trial.findUniqueOrThrow({ where: { id: trialId } });
    const changes: PlanChange[] = [
      { endsOn: dayFromNow(150) },
      { clarification: "Lids count as covers." },
      { endsAtBoxes: 60 },
    ];
    for (const change of changes) expect(await amend(trialId, change)).toMatchObject({ ok: true });

    const history = (await planHistory(db, trialId))!;
    expect(history.amendments.map(({ change }) => change)).toEqual(changes);
    let previous = before.planHash!;
    for (const { hash, ...content } of history.amendments) {
      expect(content.previousHash).toBe(previous);
      expect(hash).toBe(createHash("sha256").update(canonicalize(content)!).digest("hex"));
      previous = hash;
    }
    expect(JSON.stringify(history)).not.toContain(lead.growerId);
    expect(history.plannedEnds).toEqual({ endsOn: dayFromNow(100), endsAtBoxes: null });
    expect(history.ends).toEqual({ endsOn: dayFromNow(150), endsAtBoxes: 60 });
    const after = await db.trial.findUniqueOrThrow({ where: { id: trialId } });
    expect([after.plan, after.planHash, after.endsOn]).toEqual([before.plan, before.planHash, before.endsOn]);
    expect(
      (await ownDataDocument(db, lead, NOW)).amendments.filter((own) => own.trialId === trialId),
    ).toHaveLength(3);
    const audited = await db.auditEntry.count({ where: { subjectId: trialId, action: "trial.amended" } });
    expect(audited).toBe(3);
  });

  it("numbers amendments made at once one after the other", async () => {
    const trialId = await opened();
    const answers = await Promise.all(
      ["one", "two", "three", "four"].map((clarification) => amend(trialId, { clarification })),
    );
    expect(answers.every(({ ok }) => ok)).toBe(true);
    const { amendments } = (await planHistory(grounds.db, trialId))!;
    expect(amendments.map(({ number }) => number)).toEqual([1, 2, 3, 4]);
  });

  it("is for its lead, while it is open, and for what changes something", async () => {
    const trialId = await newDraft();
    const later = { endsOn: dayFromNow(150) };
    expect(await amend(trialId, later)).toEqual(refused("TRIAL_NOT_OPEN"));
    expect(await open(trialId)).toMatchObject({ ok: true });
    const other = { ...(await newGrower(grounds.db, "Other")), mayLead: true, isAdmin: true };
    const foreign = run(grounds.db, (tx) =>
      amendPlan(tx, other, { trialId, change: later, reason: REASON }, NOW),
    );
    expect(await foreign).toEqual(refused("NOT_FOUND"));
    expect(await amend(trialId, { endsOn: dayFromNow(100) })).toEqual(refused("NOTHING_CHANGES"));
    expect(await amend(trialId, { endsOn: dayFromNow(0) })).toEqual(refused("ENDS_IN_PAST"));
    expect(await close(trialId)).toMatchObject({ ok: true });
    expect(await amend(trialId, later)).toEqual(refused("TRIAL_NOT_OPEN"));
  });

  it("can't be undone, changed, or slipped in after the close by the application", async () => {
    const { db } = grounds;
    const trialId = await opened();
    expect(await amend(trialId, { clarification: "As told." })).toMatchObject({ ok: true });
    const change = db.$executeRaw`UPDATE plan_amendment SET reason = 'Other' WHERE trial_id = ${trialId}::uuid`;
    await expect(change).rejects.toThrow(/permission denied/);
    const removal = db.$executeRaw`DELETE FROM plan_amendment WHERE trial_id = ${trialId}::uuid`;
    await expect(removal).rejects.toThrow(/permission denied/);
    expect(await close(trialId)).toMatchObject({ ok: true });
    const late = db.$executeRaw`
      INSERT INTO plan_amendment
      SELECT gen_random_uuid(), trial_id, 2, made_at, grower_id, change, reason, hash, repeat('a', 64)
      FROM plan_amendment WHERE trial_id = ${trialId}::uuid`;
    await expect(late).rejects.toThrow(/only the plan of an open trial/);
    const moved = db.$executeRaw`UPDATE trial SET amended_ends_on = '2099-01-01' WHERE id = ${trialId}::uuid`;
    await expect(moved).rejects.toThrow(/only the plan of an open trial/);
  });
});

describe("closing early", () => {
  it("is refused where the plan says never, until the end, which an amendment may only put off", async () => {
    const trialId = await opened({ earlyCloseRule: "never" });
    expect(await close(trialId)).toEqual(refused("CLOSES_AT_ITS_END_ONLY"));
    expect((await view(trialId)).ending).toMatchObject({ isEarly: true, fault: "CLOSES_AT_ITS_END_ONLY" });
    expect(await amend(trialId, { endsOn: dayFromNow(5) })).toEqual(refused("END_ONLY_LATER"));
    expect(await amend(trialId, { endsAtBoxes: 1 })).toEqual(refused("END_ONLY_LATER"));
    expect(await amend(trialId, { endsOn: dayFromNow(120) })).toMatchObject({ ok: true });
    const plannedEnd = new Date(NOW.getTime() + 100 * DAY_MS);
    expect(await close(trialId, plannedEnd)).toEqual(refused("CLOSES_AT_ITS_END_ONLY"));
    expect(await close(trialId, new Date(NOW.getTime() + 120 * DAY_MS))).toMatchObject({ ok: true });
  });

  it("waits for the minimum in every cell where the plan says so", async () => {
    const trialId = await opened({ earlyCloseRule: "every-cell-at-minimum" });
    // Two recipes, four boxes a set, each recipe twice: 3 households × 2 boxes are 6 of the 5 asked for.
    const growers = [await takesPart(trialId), await takesPart(trialId), await takesPart(trialId)];
    for (const grower of growers) {
      expect(await close(trialId)).toEqual(refused("MINIMUM_NOT_REACHED"));
      await recordedSet(grower);
    }
    expect((await view(trialId)).ending).toEqual({ isOver: false, isEarly: true, fault: null });
    expect(await close(trialId)).toMatchObject({ ok: true });
    expect(await planHistory(grounds.db, trialId)).toMatchObject({ closedEarly: true });
  });

  it("never counts a group that has nothing as full", async () => {
    const grouping = [
      { code: "mild-wet", classes: ["Cfb" as const] },
      { code: "dry", classes: ["BSk" as const] },
    ];
    const trialId = await opened({ earlyCloseRule: "every-cell-at-minimum" }, { grouping });
    for (let at = 0; at < 3; at++) await recordedSet(await takesPart(trialId));
    expect(await close(trialId)).toEqual(refused("MINIMUM_NOT_REACHED"));
  });

  it("is marked, also where an amendment had brought the end forward", async () => {
    const { db } = grounds;
    const early = await opened();
    expect(await close(early)).toMatchObject({ ok: true });
    expect(await planHistory(db, early)).toMatchObject({ closedEarly: true });
    const brought = await opened();
    expect(await amend(brought, { endsOn: dayFromNow(1) })).toMatchObject({ ok: true });
    expect(await close(brought, new Date(NOW.getTime() + DAY_MS))).toMatchObject({ ok: true });
    expect(await planHistory(db, brought)).toMatchObject({ closedEarly: true });
  });
});

describe("a trial at its end", () => {
  it("draws no more once as many boxes are recorded as its plan asks for, and more again after an amendment", async () => {
    const trialId = await opened({ endsAtBoxes: 12 });
    const grower = await takesPart(trialId);
    const waiting = await grower.set();
    for (let sets = 0; sets < 2; sets++) await recordedSet(grower);
    expect((await view(trialId)).ending).toMatchObject({ isOver: false, isEarly: true });
    await recordedSet(grower);
    expect(await grower.draw(waiting.outingId)).toEqual(refused("TRIAL_ENDED"));
    expect((await view(trialId)).ending).toEqual({ isOver: true, isEarly: false, fault: null });
    expect(await amend(trialId, { endsAtBoxes: 11 })).toEqual(refused("BOXES_ALREADY_RECORDED"));
    expect(await amend(trialId, { endsAtBoxes: 40 })).toMatchObject({ ok: true });
    expect(await grower.draw(waiting.outingId)).toMatchObject({ ok: true });
    expect(await close(trialId)).toMatchObject({ ok: true });
    // It had recorded the planned 12 boxes but not the 40 of the amendment.
    expect(await planHistory(grounds.db, trialId)).toMatchObject({ closedEarly: true });
  });

  it("draws, plans and seats no more after its last day", async () => {
    const { db } = grounds;
    const trialId = await newDraft();
    const before = new Date(NOW.getTime() - 3 * DAY_MS);
    const past = { ...draft({ endsOn: dayFromNow(-1) }), trialId };
    expect(await run(db, (tx) => editDraft(tx, lead, past, before))).toMatchObject({ ok: true });
    expect(await open(trialId, before)).toMatchObject({ ok: true });
    const { joinCode } = await db.trial.findUniqueOrThrow({ where: { id: trialId } });
    const { regionId } = await db.trialRegion.findFirstOrThrow({ where: { trialId } });
    const grower = await newGrower(db, "Late");
    const join = { id: v7(), joinCode, regionId, agreementVersion: AGREEMENT_VERSION } as const;
    expect(await run(db, (tx) => joinTrial(tx, grower, join))).toEqual(refused("TRIAL_ENDED"));
    // An amendment puts the last day off, and it goes on.
    expect(await amend(trialId, { endsOn: dayFromNow(9) })).toMatchObject({ ok: true });
    expect(await run(db, (tx) => joinTrial(tx, grower, join))).toMatchObject({ ok: true });

    const taking = await takesPart(trialId);
    const { outingId } = await taking.set();
    await db.$executeRaw`UPDATE trial SET amended_ends_on = ends_on WHERE id = ${trialId}::uuid`;
    expect(await taking.draw(outingId)).toEqual(refused("TRIAL_ENDED"));
    const another = plan(
      { id: trialId, joinCode, regionId, sealed: { trialId, planHash: "", seal: "" } },
      v7(),
    );
    const { siteId } = await db.outing.findUniqueOrThrow({ where: { id: outingId } });
    const input = { ...another, siteId };
    expect(await run(db, (tx) => planOuting(tx, taking.grower, input))).toEqual(refused("TRIAL_ENDED"));
  });
});
