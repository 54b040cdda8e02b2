import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { findFinalPool } from "@/lib/data/pool-reading";
import { chainStart, sealOf } from "@/lib/engine/design/ledger";
import { planHash } from "@/lib/engine/design/plan";
import { verifyLedger } from "@/lib/engine/design/verify-ledger";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { recordGrade } from "@/lib/services/growing/grades";
import { joinTrial } from "@/lib/services/growing/join";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { registerSite } from "@/lib/services/growing/sites";
import { registerVariant } from "@/lib/services/growing/variants";
import { closeTrial } from "@/lib/services/lead/close";
import { makeDraft } from "@/lib/services/lead/draft";
import { addArms, removeArm } from "@/lib/services/lead/draft-arms";
import { openTrial } from "@/lib/services/lead/open";
import { leadTrialView, myTrials } from "@/lib/services/lead/read";
import { poolBothWays } from "@/lib/services/pool-both-ways";
import { poolTrialNow } from "@/lib/services/pooling";
import { ledgerEntrySchema } from "@/shared/schemas/draw";
import { AGREEMENT_VERSION } from "@/shared/schemas/enrolment";
import { storedPlanSchema, trialPlanSchema } from "@/shared/schemas/plan";
import { type TrialDraftInput, trialDraftSchema } from "@/shared/schemas/trial-draft";
import { BARLEY_RECIPE } from "../engine/grain/recipes";
import { coastSite, grade, newGrower, ownGrounds, plan, run } from "./growing-fixture";

const NOW = new Date();

const grounds = ownGrounds();
let lead: Actor;
let other: Actor;

beforeAll(async () => {
  lead = { ...(await newGrower(grounds.db, "Lead")), mayLead: true };
  other = { ...(await newGrower(grounds.db, "Another lead")), mayLead: true, isAdmin: true };
});

const draft = (change: Partial<TrialDraftInput> = {}): TrialDraftInput =>
  trialDraftSchema.parse({
    title: "Barley or spelt?",
    question: "Which of the two takes better?",
    boxesMin: 2,
    boxesMax: 6,
    endsOn: "2099-06-30",
    grouping: [{ code: "mild-wet", classes: ["Cfb"] }],
    regions: [],
    newRegion: { name: "Invented north", south: 42, west: -9, north: 44, east: 1, capacity: 5 },
    ...change,
  });

async function newDraft(actor: Actor = lead): Promise<string> {
  const made = await run(grounds.db, (tx) => makeDraft(tx, actor, draft(), NOW));
  if (!made.ok) throw new Error(made.reason);
  return made.value.trialId;
}

async function onShelf(actor: Actor, waterToGrain: number): Promise<string> {
  const saved = await run(grounds.db, (tx) =>
    registerVariant(tx, actor, {
      id: v7(),
      name: `Recipe ${waterToGrain}`,
      content: {
        ...BARLEY_RECIPE,
        grain: waterToGrain < 1.3 ? "barley-pearl" : "spelt",
        waterToGrain,
      },
    }),
  );
  if (!saved.ok) throw new Error(saved.reason);
  return saved.value.variantId;
}

async function readyDraft(): Promise<string> {
  const trialId = await newDraft();
  for (const ratio of [1, 1.2, 1.5]) {
    const variantId = await onShelf(lead, ratio);
    expect(
      await run(grounds.db, (tx) => addArms(tx, lead, { trialId, variantIds: [variantId] })),
    ).toMatchObject({
      ok: true,
    });
  }
  return trialId;
}

async function openedTrial(): Promise<string> {
  const trialId = await readyDraft();
  const opened = await run(grounds.db, (tx) => openTrial(tx, lead, { trialId }, NOW));
  expect(opened).toMatchObject({ ok: true });
  return trialId;
}

describe("a draft", () => {
  it("is made by whoever may lead, and by nobody else", async () => {
    const grower = await newGrower(grounds.db, "Grower");
    expect(await run(grounds.db, (tx) => makeDraft(tx, grower, draft(), NOW))).toEqual({
      ok: false,
      reason: "MAY_NOT_LEAD",
    });
    const trialId = await newDraft();
    const led = await grounds.db.$transaction((tx) => myTrials(tx, lead));
    expect(led.map(({ id }) => id)).toContain(trialId);
    expect((await grounds.db.$transaction((tx) => myTrials(tx, grower))).length).toBe(0);
  });

  it("can't end in the past, and equal titles get different addresses", async () => {
    const past = await run(grounds.db, (tx) => makeDraft(tx, lead, draft({ endsOn: "2020-01-01" }), NOW));
    expect(past).toEqual({ ok: false, reason: "ENDS_IN_PAST" });
    await newDraft();
    await newDraft();
    const slugs = (await grounds.db.trial.findMany()).map(({ slug }) => slug);
    expect(new Set(slugs).size).toBe(slugs.length);
  });

  it("takes recipes of the lead's own shelf only, each once, and closes gaps", async () => {
    const trialId = await readyDraft();
    const foreign = await onShelf(other, 2);
    expect(await run(grounds.db, (tx) => addArms(tx, lead, { trialId, variantIds: [foreign] }))).toEqual({
      ok: false,
      reason: "RECIPE_NOT_ON_SHELF",
    });
    const again = await onShelf(lead, 1);
    expect(await run(grounds.db, (tx) => addArms(tx, lead, { trialId, variantIds: [again] }))).toEqual({
      ok: false,
      reason: "RECIPE_ALREADY_IN",
    });
    const first = await grounds.db.arm.findFirstOrThrow({ where: { trialId, position: 1 } });
    await run(grounds.db, (tx) => removeArm(tx, lead, { trialId, armId: first.id }));
    const left = await grounds.db.arm.findMany({ where: { trialId }, orderBy: { position: "asc" } });
    expect(left.map(({ code, position }) => `${code}${position}`)).toEqual(["A1", "B2"]);
  });
});

describe("another's trial", () => {
  it("is not there for anyone but its lead, an admin included", async () => {
    const trialId = await readyDraft();
    const variantId = await onShelf(other, 2.2);
    const armId = (await grounds.db.arm.findFirstOrThrow({ where: { trialId } })).id;
    const refusals = [
      await run(grounds.db, (tx) => leadTrialView(tx, other, trialId)),
      await run(grounds.db, (tx) => addArms(tx, other, { trialId, variantIds: [variantId] })),
      await run(grounds.db, (tx) => removeArm(tx, other, { trialId, armId })),
      await run(grounds.db, (tx) => openTrial(tx, other, { trialId }, NOW)),
      await run(grounds.db, (tx) => closeTrial(tx, other, trialId, NOW)),
      await run(grounds.db, (tx) => leadTrialView(tx, lead, "no-id-at-all")),
    ];
    expect(refusals).toEqual(refusals.map(() => ({ ok: false, reason: "NOT_FOUND" })));
  });
});

describe("opening", () => {
  it("needs two recipes", async () => {
    const trialId = await newDraft();
    const opened = await run(grounds.db, (tx) => openTrial(tx, lead, { trialId }, NOW));
    expect(opened).toEqual({ ok: false, reason: "TOO_FEW_RECIPES" });
  });

  it("freezes the plan, keeps the secret sealed and starts the chain; and happens once", async () => {
    const trialId = await openedTrial();
    const trial = await grounds.db.trial.findUniqueOrThrow({ where: { id: trialId } });
    const frozen = trialPlanSchema.parse(trial.plan);
    expect(frozen.arms.map(({ code }) => code)).toEqual(["A", "B", "C"]);
    expect(planHash(frozen)).toBe(trial.planHash);
    expect(trial.openedSecret).toBeNull();
    expect(trial.lastHash).toBe(chainStart({ trialId, planHash: trial.planHash!, seal: trial.seal! }));
    const again = await run(grounds.db, (tx) => openTrial(tx, lead, { trialId }, NOW));
    expect(again).toEqual({ ok: false, reason: "TRIAL_NOT_DRAFT" });
    const variantId = await onShelf(lead, 1.9);
    const arm = await run(grounds.db, (tx) => addArms(tx, lead, { trialId, variantIds: [variantId] }));
    expect(arm).toEqual({ ok: false, reason: "TRIAL_NOT_DRAFT" });
  });

  it("happens once when two ask at the same time", async () => {
    const trialId = await readyDraft();
    const open = () => run(grounds.db, (tx) => openTrial(tx, lead, { trialId }, NOW));
    const answers = await Promise.all([open(), open()]);
    expect(answers.filter(({ ok }) => ok)).toHaveLength(1);
  });
});

describe("a trial from draft to results", () => {
  it("shows its lead no recipe beside any growth, and after the close anyone can check its draws", async () => {
    const { db } = grounds;
    const trialId = await openedTrial();
    const { joinCode } = await db.trial.findUniqueOrThrow({ where: { id: trialId } });
    const { regionId } = await db.trialRegion.findFirstOrThrow({ where: { trialId } });
    const grower = await newGrower(db, "Grower");
    const site = coastSite();
    const join = { id: v7(), joinCode, regionId, agreementVersion: AGREEMENT_VERSION } as const;
    await run(db, (tx) => joinTrial(tx, grower, join));
    await run(db, (tx) => registerSite(tx, grower, site));
    const target = { id: trialId, joinCode, regionId, sealed: { trialId, planHash: "", seal: "" } };
    const outing = plan(target, site.id, 3);
    expect(await run(db, (tx) => planOuting(tx, grower, outing))).toMatchObject({ ok: true });
    const drawn = await run(db, (tx) => drawOuting(tx, grower, { id: v7(), outingId: outing.id }));
    expect(drawn).toMatchObject({ ok: true });
    await run(db, (tx) => recordGrade(tx, grower, grade(outing.boxes[0]!.id, 45)));

    const view = await run(db, (tx) => leadTrialView(tx, lead, trialId));
    if (!view.ok) throw new Error(view.reason);
    expect(view.value.progress).toEqual([
      {
        band: "mild-wet",
        households: 1,
        sets: 1,
        abandonedSets: 0,
        boxes: 3,
        // Nobody told it, but what is recorded was opened, and had stood outside.
        setOut: 1,
        opened: 1,
        recorded: 1,
        lost: 0,
        growth: [0, 0, 0, 1, 0],
        regions: [{ region: "Invented north", households: 1, sets: 1, boxes: 3, recorded: 1 }],
      },
    ]);
    expect(JSON.stringify([view.value.progress, view.value.losses])).not.toMatch(
      /arm|variant|recipe|"[ABC]"/i,
    );

    expect(await run(db, (tx) => closeTrial(tx, lead, trialId, NOW))).toMatchObject({ ok: true });
    expect(await run(db, (tx) => closeTrial(tx, lead, trialId, NOW))).toEqual({
      ok: false,
      reason: "TRIAL_NOT_OPEN",
    });
    const closed = await db.trial.findUniqueOrThrow({ where: { id: trialId } });
    expect(sealOf(closed.openedSecret!)).toBe(closed.seal);
    const draws = await db.draw.findMany({ where: { trialId }, orderBy: { number: "asc" } });
    const entries = draws.map(({ number, algorithm, inputs, result, previousHash, hash }) =>
      ledgerEntrySchema.parse({ number, algorithm, inputs, result, previousHash, hash }),
    );
    const verdict = verifyLedger({
      trialId,
      planHash: closed.planHash!,
      seal: closed.seal!,
      entries,
      plan: storedPlanSchema.parse(closed.plan),
      head: { seal: closed.seal!, draws: closed.drawCount, lastHash: closed.lastHash! },
      secretHex: closed.openedSecret!,
    });
    expect(verdict).toMatchObject({ ok: true, replayed: true });

    await poolTrialNow(trialId, async (work) => poolBothWays(work));
    const stored = await db.poolResult.findFirstOrThrow({ where: { trialId } });
    expect(stored.result).toMatchObject({ data: { rows: 3, lost: 2, analysed: 1 } });
    expect(await findFinalPool(db, trialId, [], null)).not.toBeNull();
    const actions = await db.auditEntry.findMany({ where: { subjectId: trialId }, orderBy: { at: "asc" } });
    expect(actions.map(({ action }) => action)).toEqual(
      expect.arrayContaining(["trial.drafted", "trial.opened", "trial.closed"]),
    );
  });
});
