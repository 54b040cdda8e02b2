import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { build } from "esbuild";
import { v7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { ledgerOf } from "@/lib/data/draws";
import { recordBoxEvent } from "@/lib/services/growing/box-events";
import { recordGrade } from "@/lib/services/growing/grades";
import { registerSite } from "@/lib/services/growing/sites";
import { previewRelease, type ReleaseMeans, releaseTrial } from "@/lib/services/lead/release";
import { poolBothWays } from "@/lib/services/pool-both-ways";
import { readRelease, readReleaseFile } from "@/lib/services/read-release";
import { readResults, readTrial, type TrialView } from "@/lib/services/read-trials";
import { methodsText } from "@/lib/ui/release/methods-text";
import { LEAST_MINIMUM } from "@/shared/schemas/plan";
import { releaseManifestSchema } from "@/shared/schemas/release";
import {
  closeTrial,
  coastSite,
  drawnOuting,
  grade,
  joinedGrower,
  newGrower,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  run,
} from "./growing-fixture";

const means: ReleaseMeans = {
  pool: async (work) =>
    poolBothWays({ ...work, options: { ...work.options, newHash: () => createHash("sha256") } }),
  writeMethods: methodsText,
};
const RELEASED_AT = new Date("2026-11-25T12:00:00Z");
/** Near Bragança: mild with a dry summer (Csb), so the other climate group. */
const DRY = { latitude: 41.8, longitude: -6.8, elevationM: 690 };

const grounds = ownGrounds();
let trial: OpenTrial;
let slug: string;
let lead: Actor;
let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "grainlot-release-"));
  trial = await newOpenTrial(grounds.db);
  ({ slug } = await grounds.db.trial.findUniqueOrThrow({ where: { id: trial.id } }));
  lead = await newGrower(grounds.db, "Lead");
  await grounds.db.trialLead.create({ data: { trialId: trial.id, accountId: lead.accountId } });
  // Five growers in the mild wet group with two sets each, two in the other with one: too few to stand alone.
  for (let i = 0; i < 5; i++) await grow(i, 2);
  for (let i = 5; i < 7; i++) await grow(i, 1, DRY);
  await closeTrial(grounds.db, trial);
}, 120_000);
afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
});

/** A household's sets, their boxes recorded with growth that depends on recipe and household; one box is lost. */
async function grow(number: number, sets: number, elsewhere: typeof DRY | null = null): Promise<void> {
  const { db } = grounds;
  const { grower, siteId } = await joinedGrower(db, trial);
  const site = { ...coastSite(), ...elsewhere, id: v7() };
  if (elsewhere) expect(await run(db, (tx) => registerSite(tx, grower, site))).toMatchObject({ ok: true });
  for (let set = 0; set < sets; set++) {
    const outing = await drawnOuting(db, trial, { grower, siteId: elsewhere ? site.id : siteId });
    // The first sets in days of 20 °C, the second ones in days of 10 °C: 75 and 25 degree-days above 5 °C.
    const weather = Array.from({ length: 5 }, (_, day) => ({
      ...{ outingId: outing.id, day: new Date(Date.parse(outing.day) + day * 86_400_000) },
      ...(set === 0 ? { minC: 20, maxC: 20 } : { minC: 10, maxC: 10 }),
    }));
    await db.exposureDay.createMany({ data: weather });
    for (const [i, { id: boxId }] of outing.boxes.entries()) {
      const told = { id: v7(), boxId, occurredAt: new Date().toISOString(), withdrawsId: null, note: null };
      if (number === 0 && set === 0 && i === 0) {
        await run(db, (tx) => recordBoxEvent(tx, grower, { ...told, kind: "animal" }));
        await run(db, (tx) =>
          recordBoxEvent(tx, grower, { ...told, id: v7(), kind: "growth-not-recordable" }),
        );
        continue;
      }
      const { arm } = await db.allocation.findUniqueOrThrow({ where: { boxId }, include: { arm: true } });
      const coverPercent = Math.min(95, 8 * arm.position + 9 * ((number + 2 * i + set) % 5));
      expect(await run(db, (tx) => recordGrade(tx, grower, grade(boxId, coverPercent)))).toMatchObject({
        ok: true,
      });
    }
  }
}

const view = async (): Promise<TrialView> => (await readTrial(slug, grounds.db))!;
const file = async (name: string): Promise<string> =>
  (await readReleaseFile(await view(), name, grounds.db))!.text;
const sha256 = (text: string): string => createHash("sha256").update(text).digest("hex");
const rowsOf = (csv: string): Record<string, string>[] => parse(csv, { columns: true });

describe("before a release", () => {
  it("there is nothing to read, and only its lead sees what it would be", async () => {
    expect(await readRelease(await view(), grounds.db)).toBeNull();
    expect(await readReleaseFile(await view(), "rows.csv", grounds.db)).toBeNull();
    const other = await newGrower(grounds.db, "Other lead");
    for (const trialId of [trial.id, "no-uuid"]) {
      expect(await previewRelease(other, trialId, means)).toEqual({ ok: false, reason: "NOT_FOUND" });
    }
    const release = { trialId: trial.id, rowsSha256: "0".repeat(64) };
    expect(await releaseTrial(other, release, means)).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect(await releaseTrial(lead, release, means)).toEqual({ ok: false, reason: "CHANGED_MEANWHILE" });
    expect(await grounds.db.trialRelease.count()).toBe(0);
  });

  it("an open trial and one of two households have none", async () => {
    const open = await newOpenTrial(grounds.db);
    await grounds.db.trialLead.create({ data: { trialId: open.id, accountId: lead.accountId } });
    expect(await previewRelease(lead, open.id, means)).toEqual({ ok: false, reason: "TRIAL_NOT_CLOSED" });
    await closeTrial(grounds.db, open);
    expect(await previewRelease(lead, open.id, means)).toEqual({ ok: false, reason: "TOO_FEW_HOUSEHOLDS" });
    await expect(
      grounds.db.trialRelease.create({
        data: {
          ...{ id: v7(), trialId: (await newOpenTrial(grounds.db)).id, releasedAt: new Date() },
          ...{
            growerId: lead.growerId,
            engine: "e",
            rows: "",
            rowsSha256: "0".repeat(64),
            hash: "0".repeat(64),
          },
          ...{ analysis: {}, methods: {} },
        },
      }),
      "the database itself keeps releases to closed trials",
    ).rejects.toThrow(/constraint/i);
    expect(await grounds.db.trialRelease.count()).toBe(0);
  });
});

describe("a release", () => {
  beforeAll(async () => {
    let pools = 0;
    const counted: ReleaseMeans = {
      ...means,
      pool: (work) => {
        pools++;
        return means.pool(work);
      },
    };
    const preview = await previewRelease(lead, trial.id, counted, RELEASED_AT);
    if (!preview.ok) throw new Error(preview.reason);
    expect(await previewRelease(lead, trial.id, counted, RELEASED_AT)).toEqual(preview);
    const { rowsSha256 } = preview.value;
    const released = await releaseTrial(lead, { trialId: trial.id, rowsSha256 }, counted, RELEASED_AT);
    expect(released).toMatchObject({ ok: true });
    expect(pools, "looked at twice and released, pooled at most once").toBeLessThanOrEqual(1);
    expect(await file("rows.csv")).toBe(preview.value.csv);
    expect(await file("methods.txt")).toBe(preview.value.methods);
  });

  it("is made once, and the database refuses to change or lose it", async () => {
    const { rowsSha256 } = await grounds.db.trialRelease.findFirstOrThrow();
    expect(await releaseTrial(lead, { trialId: trial.id, rowsSha256 }, means)).toEqual({
      ok: false,
      reason: "ALREADY_RELEASED",
    });
    await expect(grounds.db.trialRelease.updateMany({ data: { rows: "" } })).rejects.toThrow(
      /denied|append only/i,
    );
    await expect(grounds.db.trialRelease.deleteMany()).rejects.toThrow(/denied|append only/i);
  });

  it("has a hash that anyone works out from its manifest, which names the hash of every part", async () => {
    const { hash } = (await readRelease(await view(), grounds.db))!;
    const text = await file("release.json");
    expect(sha256(text)).toBe(hash);
    expect((await view()).releaseHash).toBe(hash);
    const manifest = releaseManifestSchema.parse(JSON.parse(text));
    expect(manifest.parts).toHaveLength(5);
    for (const { name, sha256: stated, bytes } of manifest.parts) {
      const part = await file(name);
      expect(sha256(part), name).toBe(stated);
      expect(Buffer.byteLength(part), name).toBe(bytes);
    }
    expect(sha256(await file("plan.json")), "the plan's own fingerprint").toBe((await view()).planHash);
    expect(await readReleaseFile(await view(), "../rows.csv", grounds.db)).toBeNull();
  });

  it("has figures that the built command makes from the rows, byte for byte", async () => {
    const program = join(folder, "grainlot.cjs");
    await build({
      ...{ entryPoints: ["lib/cli/main.ts"], outfile: program, bundle: true, platform: "node" },
      ...{ target: "node20", format: "cjs", logLevel: "error" },
    });
    writeFileSync(join(folder, "rows.csv"), await file("rows.csv"));
    const { command } = JSON.parse(await file("release.json"));
    const [, ...asked] = command.split(" ");
    const printed = execFileSync(process.execPath, [program, ...asked], {
      cwd: folder,
      stdio: ["ignore", "pipe", "ignore"],
    });
    expect(printed.toString()).toBe(await file("figures.json"));
    const stored = JSON.parse(await file("results.json"));
    const figures = JSON.parse(printed.toString());
    expect(stored.data.sha256).toBe(figures.data.sha256);
    expect(stored.analysis.cells.map(({ estimate }: { estimate: number }) => estimate)).toEqual(
      figures.cells.map(({ estimate }: { estimate: number }) => estimate),
    );
  });

  it("is what readers see as results: all cells, in the groups of the rows", async () => {
    const results = await readResults(await view(), grounds.db);
    if (results.state !== "out") throw new Error(results.state);
    expect(results.computedAt).toEqual(RELEASED_AT);
    expect(results.grouping).toEqual([{ code: "mild-wet+dry-summer", classes: ["Cfb", "Csa", "Csb"] }]);
    expect(results.result.notes).not.toContain("SMALL_CELLS_WITHHELD");
    expect(results.result.data).toMatchObject({ growers: 7, outings: 12, rows: 48, lost: 1 });
  });

  it("says in its rows which recipe the ledger drew for each box", async () => {
    const entries = new Map(
      (await ledgerOf(grounds.db, trial.id)).map((entry) => [entry.inputs.outingId, entry]),
    );
    const rows = rowsOf(await file("rows.csv"));
    expect(rows).toHaveLength(48);
    for (const row of rows) {
      const { inputs, result } = entries.get(row.outing!)!;
      const [set, position] = row.box!.split(".");
      expect(set).toBe(row.outing);
      expect(result.find((placed) => placed.position === Number(position))!.arm).toBe(row.arm);
      expect([inputs.household, inputs.region]).toEqual([row.grower, row.region]);
      expect(row.available!.split(" ")).toContain(row.arm);
    }
    const lost = rows.filter(({ status }) => status === "lost");
    expect(lost).toEqual([expect.objectContaining({ outcome: "", happened: "animal", usable_g: "" })]);
  });

  it("tells in its rows by what warmth its figures are given, so that they can be made again", async () => {
    const { warmth } = JSON.parse(await file("results.json")).analysis;
    expect(warmth.present).toEqual(["0-50", "75-150"]);
    expect(warmth.cells).toHaveLength(12);
    const rows = rowsOf(await file("rows.csv")).filter(({ outcome }) => outcome !== "");
    for (const { group, arm, boxes } of warmth.cells) {
      const own = rows.filter((row) => row.warmth === group && row.arm === arm);
      expect(own, `${group} ${arm}`).toHaveLength(boxes);
    }
  });

  it("gives an attacker no place, day, person or label, and no climate group of fewer than 3 growers", async () => {
    const files = await Promise.all(
      ["rows.csv", "figures.json", "results.json", "methods.txt", "release.json"].map(file),
    );
    const { db } = grounds;
    const outings = await db.outing.findMany({ where: { trialId: trial.id }, include: { boxes: true } });
    const accounts = await db.account.findMany();
    const secret = [
      ...outings.flatMap(({ id, code, siteId, boxes }) => [
        id,
        code,
        siteId,
        ...boxes.flatMap((box) => [box.id, box.code]),
      ]),
      ...accounts.flatMap(({ id, email, growerId }) => [id, email, growerId]),
      ...(await db.household.findMany()).flatMap(({ id, joinCode }) => [id, joinCode]),
    ];
    for (const text of files) {
      expect(secret.filter((each) => each.length > 3 && text.includes(each))).toEqual([]);
    }
    expect(files[0], "no date in any row").not.toMatch(/\d{4}-\d{2}-\d{2}/);
    const growersOf = new Map<string, Set<string>>();
    for (const { band, grower } of rowsOf(files[0]!)) {
      growersOf.set(band!, (growersOf.get(band!) ?? new Set()).add(grower!));
    }
    const least = Math.min(...[...growersOf.values()].map((growers) => growers.size));
    expect(least).toBeGreaterThanOrEqual(LEAST_MINIMUM.growersPerCell);
  });
});
