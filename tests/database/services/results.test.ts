import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { readPoolTable } from "@/lib/cli/pool/read-pool-table";
import type { Database } from "@/lib/data/client";
import { keepPoolResult } from "@/lib/data/pool";
import { loadDemo } from "@/lib/demo/load";
import { poolColumns } from "@/lib/engine/statistics/pool-columns";
import { recordGrade } from "@/lib/services/growing/grades";
import { joinTrial } from "@/lib/services/growing/join";
import { registerSite } from "@/lib/services/growing/sites";
import { leadResults, leadRows } from "@/lib/services/lead/results";
import { readResults, readTrial } from "@/lib/services/read-trials";
import { DEMO_CLOSED_TRIAL, DEMO_OPEN_TRIAL } from "@/prisma/seed/trials";
import type { PoolResult } from "@/shared/schemas/pool";
import {
  coastSite,
  drawnOuting,
  enrolment,
  grade,
  joinedGrower,
  newGrower,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  run,
} from "../growing-fixture";

const grounds = ownGrounds();
let db: Database;
let lead: Actor;
let nobody: Actor;

beforeAll(async () => {
  db = grounds.db;
  const now = new Date("2026-11-25T12:00:00Z");
  await db.$transaction((tx) => loadDemo(tx, now, () => "none"), { timeout: 180_000 });
  const account = await db.account.findUniqueOrThrow({ where: { email: "lead@demo.example" } });
  nobody = await newGrower(db, "Ana");
  lead = { ...nobody, accountId: account.id, growerId: account.growerId, mayLead: true };
});

async function closedResult(): Promise<PoolResult> {
  const stored = await db.poolResult.findFirstOrThrow({ where: { trialId: DEMO_CLOSED_TRIAL.id } });
  return stored.result as unknown as PoolResult;
}

describe("a reader's own climate groups", () => {
  it("are those of their places, and none for somebody without one or not signed in", async () => {
    const trial = (await readTrial(DEMO_CLOSED_TRIAL.slug, db))!;
    const reader = await newGrower(db, "Berta");
    expect(await readResults(trial, db, reader)).toMatchObject({ state: "out", ownGroups: [] });
    expect(await readResults(trial, db)).toMatchObject({ state: "out", ownGroups: [] });
    expect(await run(db, (tx) => registerSite(tx, reader, coastSite()))).toMatchObject({ ok: true });
    expect(await readResults(trial, db, reader)).toMatchObject({ state: "out", ownGroups: ["mild-wet"] });
  });
});

describe("a result this process has read before", () => {
  it("is not read again, and gives way at once to the one of a new cut", async () => {
    const trial = (await readTrial(DEMO_CLOSED_TRIAL.slug, db))!;
    const shown = async () => {
      const results = await readResults(trial, db);
      if (results.state !== "out") throw new Error(results.state);
      return results;
    };
    const first = await shown();
    expect((await shown()).result, "the very same object").toBe(first.result);
    const cutOf = (cutSha256: string) =>
      db.poolState.update({ where: { trialId: trial.id }, data: { cutSha256 } });
    const { cutSha256 } = await db.poolState.findUniqueOrThrow({ where: { trialId: trial.id } });
    const data = { ...first.result.data, lost: 12_345 };
    const newer = { result: await closedResult(), published: { ...first.result, data }, boxes: 1 };
    await db.$transaction((tx) => keepPoolResult(tx, trial.id, { ...newer, cut: "c".repeat(64) }));
    await cutOf("c".repeat(64));
    const second = await shown();
    expect(second.result.data.lost).toBe(12_345);
    expect(second.resultName).not.toBe(first.resultName);
    await cutOf(cutSha256!);
    expect(await shown()).toEqual(first);
  });

  it("has another name as the lead's whole one", async () => {
    const found = await leadResults(db, lead, DEMO_CLOSED_TRIAL.id);
    if (!found.ok) throw new Error(found.reason);
    const again = await leadResults(db, lead, DEMO_CLOSED_TRIAL.id);
    expect(again).toEqual(found);
    const published = await readResults(found.value.trial, db);
    expect(published).toMatchObject({ state: "out" });
    expect(published).not.toMatchObject({ resultName: found.value.pool.stored!.resultName });
  });
});

describe("the whole result", () => {
  it("is the lead's only: for others there is no such trial", async () => {
    expect(await leadResults(db, nobody, DEMO_CLOSED_TRIAL.id)).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect(await leadRows(db, nobody, DEMO_CLOSED_TRIAL.id)).toEqual({ ok: false, reason: "NOT_FOUND" });
    expect(await leadResults(db, lead, "no-uuid")).toEqual({ ok: false, reason: "NOT_FOUND" });
  });

  it("says what single growers show and move, which the published one does not", async () => {
    const found = await leadResults(db, lead, DEMO_CLOSED_TRIAL.id);
    if (!found.ok) throw new Error(found.reason);
    expect(found.value.pool.stored?.result.analysis?.growers.length).toBeGreaterThan(10);
    const published = await readResults(found.value.trial, db);
    if (published.state !== "out") throw new Error(published.state);
    expect(published.result.analysis?.growers).toEqual([]);
  });

  it("stays hidden from the lead too while the trial is open, rows included", async () => {
    expect(await db.poolResult.count({ where: { trialId: DEMO_OPEN_TRIAL.id } })).toBeLessThanOrEqual(1);
    await db.$transaction(async (tx) => {
      const pooled = await closedResult();
      await keepPoolResult(tx, DEMO_OPEN_TRIAL.id, {
        result: pooled,
        published: pooled,
        cut: "a".repeat(64),
        boxes: 1,
      });
    });
    const found = await leadResults(db, lead, DEMO_OPEN_TRIAL.id);
    expect(found).toMatchObject({ ok: true, value: { pool: { status: "open", stored: null } } });
    expect(await leadRows(db, lead, DEMO_OPEN_TRIAL.id)).toEqual({ ok: false, reason: "RESULTS_HIDDEN" });
  });

  it("gives rows out of which the command makes the same figures", async () => {
    const found = await leadRows(db, lead, DEMO_CLOSED_TRIAL.id);
    if (!found.ok) throw new Error(found.reason);
    const folder = mkdtempSync(join(tmpdir(), "grainlot-rows-"));
    try {
      const file = join(folder, "rows.csv");
      writeFileSync(file, found.value.csv);
      const read = readPoolTable(file);
      if (!read.ok) throw new Error(JSON.stringify(read.faults));
      expect(read.remarks.join(" ")).toMatch(/clean_take/);
      const clean = found.value.csv.trimEnd().split("\r\n").slice(1);
      const cleanTake = Int8Array.from(clean, (line) => Number(line.split(",").at(-1) || -1));
      const again = poolColumns({ ...read.table, cleanTake }, undefined, { permutations: 199 }).result;
      const stored = await closedResult();
      expect(again.data).toMatchObject({
        sha256: stored.data.sha256,
        rows: stored.data.rows,
        analysed: stored.data.analysed,
        lost: stored.data.lost,
        growers: stored.data.growers,
      });
      expect(again.analysis!.model.criterion).toBeCloseTo(stored.analysis!.model.criterion!, 6);
      const estimateOf = (result: PoolResult) =>
        new Map(result.analysis!.cells.map(({ band, arm, estimate }) => [`${band} ${arm}`, estimate!]));
      const expected = estimateOf(stored);
      for (const [cell, estimate] of estimateOf(again)) {
        expect(estimate, cell).toBeCloseTo(expected.get(cell)!, 6);
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe("an interim look at an open trial", () => {
  let trial: OpenTrial;
  let grower: Actor;
  let boxIds: readonly string[];

  const seenBy = async (reader: Actor | null) => {
    const { slug } = await db.trial.findUniqueOrThrow({ where: { id: trial.id } });
    return (await readResults((await readTrial(slug, db))!, db, reader)).state;
  };

  beforeAll(async () => {
    trial = await newOpenTrial(db);
    const who = await joinedGrower(db, trial);
    grower = who.grower;
    const set = await drawnOuting(db, trial, who, 2);
    boxIds = set.boxes.map(({ id }) => id);
    const pooled = await closedResult();
    const interim = { look: 1, looks: 3, fraction: 0.5, by: "boxes" as const };
    await db.$transaction((tx) =>
      keepPoolResult(tx, trial.id, {
        result: { ...pooled, interim },
        published: { ...pooled, interim },
        cut: "b".repeat(64),
        boxes: 1,
      }),
    );
  });

  it("is hidden from the public, from growers of other trials, and from a grower with a box pending", async () => {
    expect(await seenBy(null)).toBe("hidden");
    expect(await seenBy(nobody)).toBe("hidden");
    expect(await seenBy(grower)).toBe("hidden");
    await run(db, (tx) => recordGrade(tx, grower, grade(boxIds[0]!, 40)));
    expect(await seenBy(grower), "one of two recorded").toBe("hidden");
  });

  it("is seen by a grower all of whose boxes are recorded, and by nobody who never had one", async () => {
    expect(await run(db, (tx) => recordGrade(tx, grower, grade(boxIds[1]!, 10)))).toMatchObject({ ok: true });
    expect(await seenBy(grower)).toBe("out");
    const idle = await newGrower(db, "Dora");
    expect(await run(db, (tx) => joinTrial(tx, idle, enrolment(trial)))).toMatchObject({ ok: true });
    expect(await seenBy(idle)).toBe("hidden");
  });

  it("is seen by the trial's lead, even when boxes came in since", async () => {
    const account = await newGrower(db, "Eva");
    await db.trialLead.create({ data: { trialId: trial.id, accountId: account.accountId } });
    const found = await leadResults(db, account, trial.id);
    expect(found).toMatchObject({
      ok: true,
      value: { pool: { stored: { result: { interim: { look: 1 } } } } },
    });
  });
});
