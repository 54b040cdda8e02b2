import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { v7 } from "uuid";
import { afterAll, beforeAll } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { type Database, openDatabase, RolledBack, type Transaction } from "@/lib/data/client";
import { ledgerOf } from "@/lib/data/draws";
import { chainStart, sealOf } from "@/lib/engine/design/ledger";
import { planHash } from "@/lib/engine/design/plan";
import { type LedgerVerdict, verifyLedger } from "@/lib/engine/design/verify-ledger";
import { variantHash } from "@/lib/engine/grain/variant-identity";
import type { Result } from "@/lib/errors/result";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { joinTrial } from "@/lib/services/growing/join";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { registerSite } from "@/lib/services/growing/sites";
import { planOf } from "@/lib/services/lead/plan";
import { sealSecret } from "@/lib/services/seal";
import { AGREEMENT_VERSION, type EnrolmentInput } from "@/shared/schemas/enrolment";
import type { GradeInput } from "@/shared/schemas/grade";
import type { OutingInput } from "@/shared/schemas/outing";
import { type PlanChoices, type StoredPlan, storedPlanSchema } from "@/shared/schemas/plan";
import type { SiteInput } from "@/shared/schemas/site";
import { BARLEY_RECIPE } from "../engine/grain/recipes";
import { freshDatabase } from "../harness/database";

/** All data here are invented. */
export const SECRET_HEX = "5ec4e7".padEnd(64, "0");

/**
 * A database of the test file's own and the environment that sealing needs: there before the file's other set-up, gone
 * after whatever it takes down.
 */
export function ownGrounds(): { readonly db: Database } {
  let grounds: Awaited<ReturnType<typeof openGrounds>> | undefined;
  beforeAll(async () => {
    grounds = await openGrounds();
  });
  afterAll(() => grounds?.close());
  return {
    get db() {
      return grounds!.db;
    },
  };
}

async function openGrounds() {
  const fresh = await freshDatabase();
  const dataFolder = mkdtempSync(join(tmpdir(), "grainlot-data-"));
  Object.assign(process.env, {
    DATABASE_URL: fresh.appUrl,
    GRAINLOT_MODE: "demo",
    NEXTAUTH_SECRET: "0123456789abcdefghijklmnopqrstuvwxyz0123",
    NEXTAUTH_URL: "http://127.0.0.1:3000",
    GRAINLOT_SEAL_KEY: "00112233445566778899aabbccddeeff00112233445566778899aabbccddeeff",
    LOG_LEVEL: "silent",
    GRAINLOT_DATA_DIR: dataFolder,
  });
  const db = openDatabase(fresh.appUrl);
  const close = async () => {
    await db.$disconnect();
    await fresh.drop();
    rmSync(dataFolder, { recursive: true, force: true });
  };
  return { db, close };
}

/** Runs a service as its callers do: a refusal undoes everything. */
export async function run<V, R extends string>(
  db: Database,
  service: (tx: Transaction) => Promise<Result<V, R>>,
): Promise<Result<V, R>> {
  try {
    return await db.$transaction(
      async (tx) => {
        const result = await service(tx);
        if (!result.ok) throw new RolledBack(result.reason);
        return result;
      },
      { maxWait: 20_000, timeout: 20_000 },
    );
  } catch (fault) {
    if (fault instanceof RolledBack) return { ok: false, reason: fault.reason as R };
    throw fault;
  }
}

/** An invented person; in the household given, or in one of their own. */
export async function newGrower(db: Database, name: string, householdId?: string): Promise<Actor> {
  const home = householdId ?? v7();
  if (!householdId) await db.household.create({ data: { id: home, joinCode: v7() } });
  const growerId = v7();
  const accountId = v7();
  await db.grower.create({ data: { id: growerId, householdId: home } });
  await db.account.create({
    data: { id: accountId, email: `${accountId}@example.org`, name, passwordHash: "none", growerId },
  });
  return { accountId, growerId, householdId: home, name, isAdmin: false, mayLead: false };
}

const GRAINS = ["barley-pearl", "spelt", "white-rice-long"] as const;

export interface OpenTrial {
  readonly id: string;
  readonly joinCode: string;
  readonly regionId: string;
  readonly sealed: { readonly trialId: string; readonly planHash: string; readonly seal: string };
}

let trials = 0;

/**
 * An open trial of three grains × two ratios, in a region of northern Iberia, with so many seats. Its plan is of the
 * first form, as trials opened before choices were part of one have it; with choices it is of the second.
 */
export async function newOpenTrial(db: Database, capacity = 20, choices?: PlanChoices): Promise<OpenTrial> {
  const number = ++trials;
  const id = v7();
  const regionId = v7();
  const extent = { south: 41, west: -9, north: 44, east: 1 };
  await db.region.create({ data: { id: regionId, code: `north-${number}`, name: "North", ...extent } });
  const joinCode = `join-${number}`;
  const contents = GRAINS.flatMap((grain) =>
    [1, 1.5].map((waterToGrain) => ({ ...BARLEY_RECIPE, grain, waterToGrain, cookMinutes: 20 })),
  );
  const grouping = [
    { code: "mild-wet", classes: ["Cfb" as const] },
    { code: "dry-summer", classes: ["Csa" as const, "Csb" as const] },
  ];
  const arms = contents.map((content, i) => ({
    code: `arm-${i + 1}`,
    grain: content.grain,
    variantHash: variantHash(content),
  }));
  const draft = {
    question: "Which grain, and how wet?",
    endsOn: "2027-06-30",
    boxesMin: 2,
    boxesMax: 6,
    grouping,
  };
  const plan: StoredPlan = choices ? planOf({ ...draft, arms, choices }) : firstPlan(draft, arms);
  const sealed = { trialId: id, planHash: planHash(plan), seal: sealOf(SECRET_HEX) };
  await db.trial.create({
    data: {
      id,
      slug: `trial-${number}`,
      title: `Invented trial ${number}`,
      question: plan.question,
      invented: true,
      joinCode,
      boxesMin: 2,
      boxesMax: 6,
      endsOn: new Date(plan.endsOn),
      grouping,
      regions: { create: { regionId, capacity } },
      secret: { create: { ciphertext: sealSecret(SECRET_HEX) } },
    },
  });
  for (const [i, content] of contents.entries()) {
    const contentHash = variantHash(content);
    const variant =
      (await db.protocolVariant.findUnique({ where: { contentHash } })) ??
      (await db.protocolVariant.create({ data: { id: v7(), contentHash, grain: content.grain, content } }));
    await db.arm.create({
      data: { id: v7(), trialId: id, variantId: variant.id, code: `arm-${i + 1}`, position: i + 1 },
    });
  }
  await db.trial.update({
    where: { id },
    data: {
      status: "open",
      openedAt: new Date(),
      plan: plan as object,
      planHash: sealed.planHash,
      seal: sealed.seal,
      lastHash: chainStart(sealed),
    },
  });
  return { id, joinCode, regionId, sealed };
}

function firstPlan(
  draft: { question: string; endsOn: string; grouping: StoredPlan["climateGrouping"] },
  arms: StoredPlan["arms"],
): StoredPlan {
  return {
    question: draft.question,
    primaryOutcome: "growth",
    minimum: { boxesPerCell: 5, growersPerCell: 3 },
    endsOn: draft.endsOn,
    climateGrouping: draft.grouping,
    boxesPerSet: { min: 2, max: 6 },
    arms,
    rubricVersion: "1",
    earlyCloseRule: "none",
    lossHandling: "as-drawn",
  };
}

export async function closeTrial(db: Database, trial: OpenTrial): Promise<void> {
  const data = { status: "closed", closedAt: new Date(), openedSecret: SECRET_HEX };
  await db.trial.update({ where: { id: trial.id }, data });
}

export const enrolment = (trial: OpenTrial): EnrolmentInput => ({
  id: v7(),
  joinCode: trial.joinCode,
  regionId: trial.regionId,
  agreementVersion: AGREEMENT_VERSION,
});

/** Near Gijón on the Cantabrian coast: mild and wet the whole year. */
export const coastSite = (): SiteInput => ({
  id: v7(),
  name: "Beech wood",
  latitude: 43.5,
  longitude: -5.7,
  elevationM: 30,
  permission: "asked-and-given",
});

export const plan = (trial: OpenTrial, siteId: string, boxes = 4): OutingInput => ({
  id: v7(),
  trialId: trial.id,
  siteId,
  day: new Date().toISOString().slice(0, 10),
  boxKind: "softwood",
  innerLengthCm: 30,
  innerWidthCm: 20,
  innerHeightCm: 9,
  grainDepthCm: 5,
  cover: "paper",
  coverClear: true,
  guard: "wire-cage",
  boxes: Array.from({ length: boxes }, () => ({ id: v7() })),
  grainsAtHand: [...GRAINS],
});

export const grade = (boxId: string, coverPercent: number, basedOn: number | null = null): GradeInput => ({
  id: v7(),
  boxId,
  measures: {
    coverPercent: { value: coverPercent },
    coverClass: null,
    offColourPercent: {
      "blue-green": { value: 0 },
      black: { value: 2 },
      "yellow-orange": { value: 0 },
      "pink-red": { value: 0 },
    },
    depth: "cant_tell",
    wetness: { value: "moist" },
    warmth: "not_measured",
    smell: null,
    usableMassG: null,
    totalMassG: null,
  },
  openedAt: null,
  recordedAt: new Date().toISOString().replace("Z", "+00:00"),
  basedOn,
  note: null,
});

/** A grower with a seat and a place. */
export interface Joined {
  readonly grower: Actor;
  readonly siteId: string;
}

/** A grower who has joined the trial, with a place on the coast, in the household given or in one of their own. */
export async function joinedGrower(db: Database, trial: OpenTrial, householdId?: string): Promise<Joined> {
  const grower = await newGrower(db, "Grower", householdId);
  const site = coastSite();
  for (const done of [
    await run(db, (tx) => joinTrial(tx, grower, enrolment(trial))),
    await run(db, (tx) => registerSite(tx, grower, site)),
  ]) {
    if (!done.ok) throw new Error(done.reason);
  }
  return { grower, siteId: site.id };
}

/** A set of a grower's, planned; a refusal fails the test. */
export async function plannedOuting(
  db: Database,
  trial: OpenTrial,
  { grower, siteId }: Joined,
  boxes?: number,
  changes: Partial<OutingInput> = {},
): Promise<OutingInput> {
  const set = { ...plan(trial, siteId, boxes), ...changes };
  const planned = await run(db, (tx) => planOuting(tx, grower, set));
  if (!planned.ok) throw new Error(planned.reason);
  return set;
}

/** A set of a grower's whose recipes are picked; a refusal fails the test. */
export async function drawnOuting(
  db: Database,
  trial: OpenTrial,
  who: Joined,
  boxes?: number,
  changes?: Partial<OutingInput>,
): Promise<OutingInput> {
  const set = await plannedOuting(db, trial, who, boxes, changes);
  const drawn = await run(db, (tx) => drawOuting(tx, who.grower, { id: v7(), outingId: set.id }));
  if (!drawn.ok) throw new Error(drawn.reason);
  return set;
}

/** What anyone would find who has the trial's ledger, its head and its secret. */
export async function ledgerVerdict(db: Database, trial: OpenTrial): Promise<LedgerVerdict> {
  const stored = await db.trial.findUniqueOrThrow({ where: { id: trial.id } });
  const entries = await ledgerOf(db, trial.id);
  const head = { seal: trial.sealed.seal, draws: stored.drawCount, lastHash: stored.lastHash! };
  return verifyLedger({
    ...trial.sealed,
    plan: storedPlanSchema.parse(stored.plan),
    entries,
    head,
    secretHex: SECRET_HEX,
  });
}

/** Puts the last box of a set out, as its grower would have told it, so that the household may go on to draw. */
export async function setOutLast(db: Database, outingId: string): Promise<void> {
  const box = await db.box.findFirstOrThrow({
    where: { outingId },
    orderBy: { position: "desc" },
    include: { outing: true },
  });
  const { growerId } = box.outing;
  await db.boxEvent.create({
    data: { id: v7(), boxId: box.id, growerId, kind: "set-out", occurredAt: new Date(), offsetMinutes: 0 },
  });
}

/** Whether a transaction waits for another one's. */
export async function somebodyWaits(db: Transaction): Promise<boolean> {
  const waiting = await db.$queryRaw<unknown[]>`
    SELECT pid FROM pg_locks JOIN pg_stat_activity USING (pid) WHERE NOT granted AND datname = current_database()`;
  return waiting.length > 0;
}
