import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { v7 } from "uuid";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type Database, openDatabase } from "@/lib/data/client";
import { ledgerOf } from "@/lib/data/draws";
import { EarlierDraws } from "@/lib/engine/design/history";
import { chainStart, entryHash, sealOf, timeHashOf } from "@/lib/engine/design/ledger";
import { ledgerOutingId } from "@/lib/engine/design/ledger-outing-id";
import { planHash } from "@/lib/engine/design/plan";
import { drawRule } from "@/lib/engine/design/rules";
import { verifyLedger } from "@/lib/engine/design/verify-ledger";
import { variantHash } from "@/lib/engine/grain/variant-identity";
import { drawSource } from "@/lib/engine/random/source";
import { migrate } from "@/lib/launch/migrate.mjs";
import { migrationsOf } from "@/lib/launch/serve.mjs";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { outingView } from "@/lib/services/growing/outing-view";
import { leadTrialView } from "@/lib/services/lead/read";
import { planHistory } from "@/lib/services/plan-history";
import { readTrial } from "@/lib/services/read-trials";
import { sealSecret } from "@/lib/services/seal";
import { drawInputsSchema, type LedgerEntry } from "@/shared/schemas/draw";
import { storedPlanSchema } from "@/shared/schemas/plan";
import { BARLEY_RECIPE } from "../engine/grain/recipes";
import { type FreshDatabase, freshDatabase } from "../harness/database";
import { root } from "../harness/root";
import { run, SECRET_HEX, setOutLast } from "./growing-fixture";

/** The migrations there were before plans had a form and draws were counted. */
const OLD = ["2026112501_tables", "2026112502_promises", "2026112503_jobs"];
const RULE = "grainlot-draw/1";
const GRAINS = ["barley-pearl", "spelt", "white-rice-long"] as const;
const SETS = 7;

let fresh: FreshDatabase;
let db: Database;
let directory: string;

const [trialId, regionId, householdId, growerId, accountId, siteId, enrolmentId] = [
  v7(),
  v7(),
  v7(),
  v7(),
  v7(),
  v7(),
  v7(),
];
const contents = GRAINS.map((grain) => ({ ...BARLEY_RECIPE, grain }));
const arms = contents.map((content, at) => ({ id: v7(), variantId: v7(), content, code: "ABC"[at]! }));
/** A plan of the first form. */
const plan = {
  question: "Which grain?",
  primaryOutcome: "growth",
  minimum: { boxesPerCell: 5, growersPerCell: 3 },
  endsOn: "2099-06-30",
  climateGrouping: [{ code: "mild-wet", classes: ["Cfb"] }],
  boxesPerSet: { min: 2, max: 6 },
  arms: arms.map(({ code, content }) => ({ code, grain: content.grain, variantHash: variantHash(content) })),
  rubricVersion: "growth-1",
  earlyCloseRule: "lead-may-close-marked",
  lossHandling: "as-drawn",
};
const sealed = { trialId, planHash: planHash(storedPlanSchema.parse(plan)), seal: sealOf(SECRET_HEX) };
const waitingId = v7();
const abandonedId = v7();

beforeAll(async () => {
  fresh = await freshDatabase({ migrated: false });
  Object.assign(process.env, {
    DATABASE_URL: fresh.appUrl,
    GRAINLOT_MODE: "demo",
    NEXTAUTH_SECRET: "0123456789abcdefghijklmnopqrstuvwxyz0123",
    NEXTAUTH_URL: "http://127.0.0.1:3000",
    GRAINLOT_SEAL_KEY: "4f".repeat(32),
    LOG_LEVEL: "silent",
  });
  directory = mkdtempSync(join(tmpdir(), "grainlot-old-"));
  for (const name of OLD) cpSync(join(migrationsOf(root), name), join(directory, name), { recursive: true });
  await migrate({ connectionString: fresh.ownerUrl, directory });
  await fillAsBefore();
  db = openDatabase(fresh.appUrl);
});
afterAll(async () => {
  await db.$disconnect();
  await fresh.drop();
  rmSync(directory, { recursive: true });
});

/** An open trial with seven sets drawn by the first rule, the last one given up, and a set waiting for its draw. */
async function fillAsBefore(): Promise<void> {
  const client = new pg.Client({ connectionString: fresh.appUrl });
  await client.connect();
  const insert = (table: string, row: Record<string, unknown>) => {
    const names = Object.keys(row);
    const places = names.map((_, at) => `$${at + 1}`);
    return client.query(`INSERT INTO ${table} (${names}) VALUES (${places})`, Object.values(row));
  };
  await insert("household", { id: householdId, join_code: "HOME" });
  await insert("grower", { id: growerId, household_id: householdId });
  await insert("account", {
    id: accountId,
    email: "old@example.org",
    name: "Old",
    password_hash: "none",
    grower_id: growerId,
  });
  await insert("region", {
    id: regionId,
    code: "north",
    name: "North",
    south: 41,
    west: -9,
    north: 44,
    east: 1,
  });
  await insert("site", { id: siteId, grower_id: growerId, household_id: householdId, koppen_class: "Cfb" });
  await insert("trial", {
    id: trialId,
    slug: "old-trial",
    title: "An old trial (invented)",
    question: plan.question,
    join_code: "OLDTRIAL",
    boxes_min: 2,
    boxes_max: 6,
    ends_on: plan.endsOn,
    grouping: JSON.stringify(plan.climateGrouping),
  });
  await insert("trial_secret", { trial_id: trialId, ciphertext: Buffer.from(sealSecret(SECRET_HEX)) });
  await insert("trial_lead", { trial_id: trialId, account_id: accountId });
  await insert("trial_region", { trial_id: trialId, region_id: regionId, capacity: 5, seats_taken: 1 });
  for (const [at, { id, variantId, content, code }] of arms.entries()) {
    const hash = variantHash(content);
    await insert("protocol_variant", { id: variantId, content_hash: hash, grain: content.grain, content });
    await insert("arm", { id, trial_id: trialId, variant_id: variantId, code, position: at + 1 });
  }
  await client.query(
    "UPDATE trial SET status = 'open', plan = $2, plan_hash = $3, seal = $4, last_hash = $5, opened_at = now() WHERE id = $1",
    [trialId, plan, sealed.planHash, sealed.seal, chainStart(sealed)],
  );
  await insert("enrolment", {
    id: enrolmentId,
    trial_id: trialId,
    household_id: householdId,
    region_id: regionId,
    pseudonym: "HH1",
  });
  const earlier = new EarlierDraws(arms.map(({ code }) => code));
  let previous: LedgerEntry | null = null;
  for (let set = 1; set <= SETS + 1; set++) {
    const isWaiting = set > SETS;
    const outingId = isWaiting ? waitingId : set === SETS ? abandonedId : v7();
    const boxes = Array.from({ length: 2 }, () => v7());
    await insert("outing", {
      id: outingId,
      trial_id: trialId,
      enrolment_id: enrolmentId,
      grower_id: growerId,
      site_id: siteId,
      region_id: regionId,
      code: `S${set}`,
      day: "2026-11-20",
      box_kind: "softwood",
      inner_length_cm: 30,
      inner_width_cm: 20,
      grain_depth_cm: 5,
      cover: "paper",
      guard: "none",
      grains_at_hand: [...GRAINS],
    });
    for (const [at, id] of boxes.entries())
      await insert("box", { id, outing_id: outingId, position: at + 1, code: `S${set}-${at + 1}` });
    if (isWaiting) break;
    const entry: LedgerEntry = drawnByFirstRule(outingId, set, previous, earlier);
    const drawId = v7();
    const { inputs, result, ...link } = entry;
    await insert("draw", {
      id: drawId,
      trial_id: trialId,
      outing_id: outingId,
      number: link.number,
      algorithm: link.algorithm,
      previous_hash: link.previousHash,
      hash: link.hash,
      inputs,
      result: JSON.stringify(result),
      drawn_at: new Date(),
      time_salt: "5a".repeat(16),
    });
    for (const { position, arm } of result) {
      await insert("allocation", {
        box_id: boxes[position - 1],
        arm_id: arms.find(({ code }) => code === arm)!.id,
        draw_id: drawId,
      });
    }
    await client.query(
      "UPDATE outing SET status = 'drawn', committed_at = now(), band = 'mild-wet', koppen_class = 'Cfb' WHERE id = $1",
      [outingId],
    );
    await client.query("UPDATE trial SET draw_count = $2, last_hash = $3 WHERE id = $1", [
      trialId,
      set,
      entry.hash,
    ]);
    earlier.add(entry);
    previous = entry;
  }
  await client.query(
    "UPDATE outing SET status = 'abandoned', abandoned_at = now(), abandon_reason = 'weather' WHERE id = $1",
    [abandonedId],
  );
  await client.end();
}

function drawnByFirstRule(
  outingId: string,
  number: number,
  previous: LedgerEntry | null,
  earlier: EarlierDraws,
): LedgerEntry {
  const before = earlier.drawnBefore("mild-wet");
  const inputs = drawInputsSchema.parse({
    outingId: ledgerOutingId(SECRET_HEX, outingId),
    household: "HH1",
    climateGroup: "mild-wet",
    region: "north",
    boxes: 2,
    grainsAtHand: [...GRAINS],
    arms: arms.map(({ code, content }) => ({
      code,
      grain: content.grain,
      drawnBefore: before.get(code) ?? 0,
    })),
    timeHash: timeHashOf("5a".repeat(16), "2026-11-20T10:00:00.000Z"),
  });
  const random = drawSource({ secretHex: SECRET_HEX, trialId, drawNumber: number });
  const drawn = drawRule(RULE)!(inputs, random, earlier.of(inputs), {
    meetAgainShare: 0,
    fetchAfterDays: null,
  });
  if (!drawn.ok) throw new Error(drawn.reason);
  const previousHash = previous?.hash ?? chainStart(sealed);
  const content = { number, algorithm: RULE, inputs, result: drawn.placements, previousHash };
  return { ...content, hash: entryHash(content) };
}

it("a database of before is upgraded, and its open trial goes on: its plan is read, its draws are counted and its ledger holds", async () => {
  const { applied } = await migrate({ connectionString: fresh.ownerUrl, directory: migrationsOf(root) });
  expect(applied).toContain("2026112504_design");
  const actor = { accountId, growerId, householdId, name: "Old", isAdmin: false, mayLead: true };

  const view = await run(db, (tx) => leadTrialView(tx, actor, trialId));
  expect(view).toMatchObject({ ok: true, value: { ending: { isOver: false, isEarly: true, fault: null } } });
  expect((await readTrial("old-trial", db))!.plan).toEqual(plan);
  expect(await planHistory(db, trialId)).toMatchObject({
    ends: { endsOn: "2099-06-30", endsAtBoxes: null },
    amendments: [],
  });
  expect(await db.drawTally.count()).toBe(0);

  // A household that has set out nothing of so many sets would draw no further one.
  for (const { id } of await db.outing.findMany({ where: { status: "drawn" } })) await setOutLast(db, id);
  const drawn = await run(db, (tx) => drawOuting(tx, actor, { id: v7(), outingId: waitingId }));
  expect(drawn).toMatchObject({ ok: true, value: { number: SETS + 1, algorithm: "grainlot-draw/2" } });
  // The set given up before the upgrade comes back, too.
  const page = await db.$transaction((tx) => outingView(tx, actor, waitingId));
  expect(page!.returned).toEqual({ code: `S${SETS}`, owed: 2, kept: 2 });
  expect(page!.fetchDay).toBeNull();
  expect(await db.drawTally.findMany()).toMatchObject([{ band: "mild-wet", region: "north", draws: SETS }]);

  const entries = await ledgerOf(db, trialId);
  expect(entries.map(({ algorithm }) => algorithm)).toEqual([...Array(SETS).fill(RULE), "grainlot-draw/2"]);
  const { drawCount, lastHash } = await db.trial.findUniqueOrThrow({ where: { id: trialId } });
  const head = { seal: sealed.seal, draws: drawCount, lastHash: lastHash! };
  const frozen = storedPlanSchema.parse(plan);
  const verdict = verifyLedger({ ...sealed, plan: frozen, entries, head, secretHex: SECRET_HEX });
  expect(verdict).toMatchObject({ ok: true, replayed: true });
});
