import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { v7 } from "uuid";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { keepCut, takeCut, trialsWaitingForPool, wantPool } from "@/lib/data/pool-state";
import { NO_EXTRAS } from "@/lib/engine/statistics/pool-extras";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { enqueuePool, startJobs, stopJobs } from "@/lib/jobs/boss";
import { poolInProcess } from "@/lib/jobs/pool-process";
import { recordBoxEvent } from "@/lib/services/growing/box-events";
import { recordGrade } from "@/lib/services/growing/grades";
import { type PoolWork, poolBothWays } from "@/lib/services/pool-both-ways";
import { analysisTable } from "@/lib/services/pool-data";
import { type Pool, poolTrialNow } from "@/lib/services/pooling";
import type { GradeInput } from "@/shared/schemas/grade";
import type { OutingInput } from "@/shared/schemas/outing";
import type { PoolRow } from "@/shared/schemas/pool";
import type { BoxEventKind } from "@/shared/vocabulary/box";
import { poolRows } from "../engine/statistics/table-rows";
import {
  closeTrial,
  drawnOuting,
  grade,
  joinedGrower,
  newGrower,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  run,
  setOutLast,
} from "./growing-fixture";

const grounds = ownGrounds();
let folder: string;
let program: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "grainlot-pool-"));
  program = join(folder, "pool-child.cjs");
  // As the launcher bundles it.
  await build({
    entryPoints: ["lib/jobs/pool-child.ts"],
    outfile: program,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "cjs",
    logLevel: "error",
  });
});

afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
});

async function analysisRows(trialId: string, until?: Date): Promise<PoolRow[]> {
  return poolRows((await analysisTable(grounds.db, trialId, until)).table);
}

/** A grower with one drawn set of four boxes. */
async function newSet(
  trial: OpenTrial,
  grainsAtHand?: OutingInput["grainsAtHand"],
): Promise<{ actor: Actor; outing: OutingInput; boxes: string[] }> {
  const who = await joinedGrower(grounds.db, trial);
  const outing = await drawnOuting(grounds.db, trial, who, 4, grainsAtHand && { grainsAtHand });
  return { actor: who.grower, outing, boxes: outing.boxes.map(({ id }) => id) };
}

/** The rows of an outing's boxes: rows go by outing and position. */
async function rowsByBox(outingId: string, boxes: readonly string[]): Promise<number[]> {
  const placed = await grounds.db.box.findMany({ where: { outingId }, orderBy: { position: "asc" } });
  return boxes.map((id) => placed.findIndex((box) => box.id === id));
}

async function tell(actor: Actor, boxId: string, kind: BoxEventKind, withdrawsId: string | null = null) {
  const id = v7();
  const occurredAt = new Date().toISOString();
  const told = await run(grounds.db, (tx) =>
    recordBoxEvent(tx, actor, { id, boxId, kind, occurredAt, withdrawsId, note: null }),
  );
  expect(told).toMatchObject({ ok: true });
  return id;
}

async function record(actor: Actor, boxId: string, coverPercent: number, basedOn: number | null = null) {
  const recorded = await run(grounds.db, (tx) => recordGrade(tx, actor, grade(boxId, coverPercent, basedOn)));
  expect(recorded).toMatchObject({ ok: true });
}

describe("the recipes a set could have had", () => {
  it("are the same whatever grains are at hand that no recipe needs", async () => {
    const trial = await newOpenTrial(grounds.db);
    const pantries: OutingInput["grainsAtHand"][] = [["spelt"], ["spelt", "millet"], ["millet", "spelt"]];
    for (const grainsAtHand of pantries) {
      const { actor, boxes } = await newSet(trial, grainsAtHand);
      await record(actor, boxes[0]!, 40);
    }
    const { columns } = (await analysisTable(grounds.db, trial.id)).table;
    expect(columns.labels.availability).toEqual(["arm-3 arm-4"]);
    expect([...columns.availability]).toEqual([0, 0, 0]);
  });
});

describe("the rows of an analysis", () => {
  it("are the drawn boxes with what their grower said last; pending ones come with the close", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { actor, outing, boxes } = await newSet(trial);
    expect(await analysisRows(trial.id)).toEqual([]);
    const [first, second, third, fourth] = boxes as [string, string, string, string];

    await record(actor, first, 5);
    await record(actor, first, 80, 1);
    const gradeRow = await db.grade.findFirstOrThrow({ where: { boxId: first } });
    await db.grade.create({ data: { ...gradeRow, id: v7(), masked: true, take: 0, measures: {} } });
    await record(actor, second, 40);
    await tell(actor, second, "growth-not-recordable");
    await record(actor, third, 40);
    const mistaken = await tell(actor, third, "growth-not-recordable");
    await tell(actor, third, "withdrawal", mistaken);

    const code = await db.box.findMany({ where: { outingId: outing.id }, orderBy: { position: "asc" } });
    const byBox = (rows: PoolRow[]) => new Map(rows.map((row) => [row.box, row]));
    const open = byBox(await analysisRows(trial.id));
    expect(open.get(code[0]!.code)).toMatchObject({
      status: "graded",
      outcome: 4,
      cleanTake: true,
      band: "mild-wet",
    });
    expect(open.get(code[1]!.code)).toMatchObject({ status: "lost", outcome: null });
    expect(open.get(code[2]!.code)).toMatchObject({ status: "graded", outcome: 3 });
    expect(open.has(code[3]!.code)).toBe(false);

    await closeTrial(db, trial);
    const closedAt = (await db.trial.findUniqueOrThrow({ where: { id: trial.id } })).closedAt!;
    await new Promise((resolve) => setTimeout(resolve, 20));
    await record(actor, fourth, 90);
    const closed = byBox(await analysisRows(trial.id, closedAt));
    expect(closed.size).toBe(4);
    expect(closed.get(code[3]!.code)).toMatchObject({ status: "lost", outcome: null });
  });

  it("say which arms were at hand, what was cooked otherwise, when boxes were fetched and what second looks saw", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { actor, outing, boxes } = await newSet(trial, ["barley-pearl", "spelt"]);
    const looker = await newGrower(db, "Second looker");
    for (const box of boxes) await record(actor, box, 40);
    await tell(actor, boxes[0]!, "cooked-otherwise");
    const mistaken = await tell(actor, boxes[1]!, "not-cooked");
    await tell(actor, boxes[1]!, "withdrawal", mistaken);
    await tell(actor, boxes[2]!, "cooked-as-drawn");
    const hour = 3_600_000;
    const since = Date.parse(outing.day);
    const at = (kind: string, occurredAt: Date) => ({
      ...{ id: v7(), boxId: boxes[3]!, growerId: actor.growerId, kind, occurredAt, offsetMinutes: 0 },
    });
    await db.boxEvent.createMany({
      data: [at("set-out", new Date(since)), at("fetched", new Date(since + 5.5 * 24 * hour))],
    });
    const own = await db.grade.findFirstOrThrow({ where: { boxId: boxes[2]! } });
    for (const [revision, take] of [
      [1, 4],
      [2, 1],
    ] as const) {
      const look = {
        ...own,
        id: v7(),
        graderId: looker.growerId,
        masked: true,
        revision,
        take,
        measures: {},
      };
      await db.grade.create({ data: look });
    }
    const { table, extras } = await analysisTable(db, trial.id);
    const rowOf = await rowsByBox(outing.id, boxes);
    const { labels, arm, availability } = table.columns;
    // The fixture's arms 1 to 4 are of these two grains.
    expect(labels.availability).toEqual(["arm-1 arm-2 arm-3 arm-4"]);
    expect([...availability]).toEqual([0, 0, 0, 0]);
    const asCooked = boxes.map((_, i) => extras.asCooked!.index[rowOf[i]!]);
    expect(asCooked).toEqual([-1, arm[rowOf[1]!], arm[rowOf[2]!], arm[rowOf[3]!]]);
    expect(boxes.map((_, i) => extras.fetchDay![rowOf[i]!])).toEqual([Number.NaN, Number.NaN, Number.NaN, 5]);
    expect(extras.masked).toEqual({
      row: Int32Array.of(rowOf[2]!),
      grader: Int32Array.of(0),
      take: Int8Array.of(1),
    });
  });

  it("go by what was told last of what was told in two ways, and by the one before where that was taken back", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { actor, outing, boxes } = await newSet(trial);
    const [first, second, third, fourth] = boxes as [string, string, string, string];
    for (const box of boxes) await record(actor, box, 40);
    const inTurn = async (box: string, kinds: readonly BoxEventKind[]) => {
      let last = "";
      for (const kind of kinds) last = await tell(actor, box, kind, kind === "withdrawal" ? last : null);
    };
    await inTurn(first, [
      "cooked-otherwise",
      "cooked-as-drawn",
      "growth-not-recordable",
      "growth-recordable",
    ]);
    await inTurn(second, ["cooked-as-drawn", "not-cooked", "growth-recordable", "growth-not-recordable"]);
    await inTurn(third, ["cooked-otherwise", "cooked-as-drawn", "withdrawal"]);
    await inTurn(third, ["growth-not-recordable", "growth-recordable", "withdrawal"]);
    await inTurn(fourth, ["cooked-as-drawn", "cooked-otherwise", "withdrawal"]);
    await inTurn(fourth, ["growth-not-recordable", "growth-not-recordable", "growth-recordable"]);
    const { table, extras } = await analysisTable(db, trial.id);
    const rowOf = await rowsByBox(outing.id, boxes);
    const { arm, lost } = table.columns;
    expect(rowOf.map((row) => lost[row])).toEqual([0, 1, 1, 0]);
    expect(rowOf.map((row) => extras.asCooked!.index[row] === arm[row])).toEqual([true, false, false, true]);
    expect(rowOf.map((row) => extras.asCooked!.index[row] === -1)).toEqual([false, true, true, false]);
  });

  it("say how much usable grain the grower's latest grade weighed", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { actor, outing, boxes } = await newSet(trial);
    const weigh = async (box: string, usableMassG: GradeInput["measures"]["usableMassG"], basedOn = 0) => {
      const given = grade(box, 80, basedOn || null);
      const measures = { ...given.measures, usableMassG };
      const recorded = await run(db, (tx) => recordGrade(tx, actor, { ...given, measures }));
      expect(recorded).toMatchObject({ ok: true });
    };
    await record(actor, boxes[0]!, 80);
    expect((await analysisTable(db, trial.id)).extras.usableMassG).toBeNull();

    await weigh(boxes[0]!, { value: 350 }, 1);
    await weigh(boxes[0]!, { value: 412.5 }, 2);
    await weigh(boxes[1]!, { value: 300 });
    await weigh(boxes[1]!, "not_measured", 1);
    await weigh(boxes[2]!, { value: 0 });
    const own = await db.grade.findFirstOrThrow({ where: { boxId: boxes[2]! } });
    const look = { ...own, id: v7(), masked: true, measures: { usableMassG: { value: 999 } } };
    await db.grade.create({ data: look });
    await record(actor, boxes[3]!, 80);

    const { usableMassG } = (await analysisTable(db, trial.id)).extras;
    const rowOf = await rowsByBox(outing.id, boxes);
    expect(boxes.map((_, i) => usableMassG![rowOf[i]!])).toEqual([412.5, Number.NaN, 0, Number.NaN]);
  });

  it("say in which season a set stood, by the day where it stood, how warm it was and whether its spot had been used", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { actor, outing, boxes } = await newSet(trial);
    await setOutLast(db, outing.id);
    const again = await drawnOuting(db, trial, { grower: actor, siteId: outing.siteId });
    const setOut = (boxId: string, at: string, offsetMinutes: number) => ({
      ...{
        id: v7(),
        boxId,
        growerId: actor.growerId,
        kind: "set-out",
        occurredAt: new Date(at),
        offsetMinutes,
      },
    });
    // On the last day of autumn by universal time, on the first of winter where the boxes stand.
    const first = setOut(boxes[0]!, "2025-11-30T23:30:00Z", 60);
    const mistaken = setOut(boxes[1]!, "2020-01-01T12:00:00Z", 0);
    await db.boxEvent.createMany({ data: [first, mistaken] });
    await tell(actor, boxes[1]!, "withdrawal", mistaken.id);
    await db.outing.update({ where: { id: again.id }, data: { day: new Date("2026-07-01") } });
    await record(actor, boxes[0]!, 40);
    await record(actor, again.boxes[0]!.id, 40);

    const { extras } = await analysisTable(db, trial.id);
    const { labels, index } = extras.season!;
    const codes = await db.outing.findMany({ where: { trialId: trial.id }, orderBy: { code: "asc" } });
    const seasonOf = (id: string) => labels[index[codes.findIndex((own) => own.id === id)]!];
    expect(seasonOf(outing.id)).toBe("2025-12 winter");
    expect(seasonOf(again.id)).toBe("2026-06 summer");
    const [cool, warm] = [2, 22].map((minC) =>
      Array.from({ length: 5 }, (_, i) => ({ minC, maxC: minC + 8, rainMm: null, place: i })),
    );
    const daysFrom = (outingId: string, first: string, days: typeof cool) =>
      days!.map(({ place, ...read }) => ({
        ...{ outingId, day: new Date(Date.parse(first) + place * 86_400_000) },
        ...read,
      }));
    // Of the second set a day is missing.
    await db.exposureDay.createMany({
      data: [...daysFrom(outing.id, "2025-12-01", warm), ...daysFrom(again.id, "2026-07-01", cool).slice(1)],
    });
    const { warmth } = (await analysisTable(db, trial.id)).extras;
    expect(warmth!.labels).toEqual(["75-150"]);
    const warmthOf = (id: string) => warmth!.index[codes.findIndex((own) => own.id === id)];
    expect([warmthOf(outing.id), warmthOf(again.id)]).toEqual([0, -1]);
    const reused = (id: string) => extras.reusedSpot![codes.findIndex((own) => own.id === id)];
    expect([reused(outing.id), reused(again.id)]).toEqual([0, 1]);
  });

  it("keep an abandoned set: its boxes are lost", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { outing } = await newSet(trial);
    const data = { status: "abandoned", abandonedAt: new Date(), abandonReason: "weather" };
    await db.outing.update({ where: { id: outing.id }, data });
    const rows = await analysisRows(trial.id);
    expect(rows.map(({ status }) => status)).toEqual(["lost", "lost", "lost", "lost"]);
  });
});

describe("pooling", () => {
  it("keeps the last good result and the failure when a run fails, and recovers", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { actor, boxes } = await newSet(trial);
    await record(actor, boxes[0]!, 50);
    await poolTrialNow(trial.id, async (work) => poolBothWays(work));
    const good = await db.poolState.findUniqueOrThrow({ where: { trialId: trial.id } });
    expect(good.cutSha256).toMatch(/^[0-9a-f]{64}$/);
    expect(await trialsWaitingForPool(db)).not.toContain(trial.id);

    await record(actor, boxes[1]!, 50);
    expect(await trialsWaitingForPool(db)).toContain(trial.id);
    const broken: Pool = () => Promise.reject(new Error("no memory left"));
    await expect(poolTrialNow(trial.id, broken)).rejects.toThrow("no memory left");
    const failed = await db.poolState.findUniqueOrThrow({ where: { trialId: trial.id } });
    expect(failed).toMatchObject({ failure: "no memory left", cutSha256: good.cutSha256 });
    expect(await trialsWaitingForPool(db)).not.toContain(trial.id);
    expect(await db.poolResult.count({ where: { trialId: trial.id } })).toBe(1);

    await poolTrialNow(trial.id, async (work) => poolBothWays(work));
    const again = await db.poolState.findUniqueOrThrow({ where: { trialId: trial.id } });
    expect(again.failure).toBeNull();
    expect(await db.poolResult.count({ where: { trialId: trial.id } })).toBe(2);
  });

  it("keeps one result per cut", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { actor, boxes } = await newSet(trial);
    await record(actor, boxes[0]!, 50);
    for (let i = 0; i < 2; i++) await poolTrialNow(trial.id, async (work) => poolBothWays(work));
    expect(await db.poolResult.count({ where: { trialId: trial.id } })).toBe(1);
  });

  it("answers the wish before its cut, however little time lies between", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    for (let i = 0; i < 80; i++) {
      await db.$transaction(async (tx) => {
        await wantPool(tx, trial.id);
        const at = await takeCut(tx, trial.id);
        await keepCut(tx, trial.id, { at: at!, sha256: "0".repeat(64) });
      });
      expect(await trialsWaitingForPool(db)).not.toContain(trial.id);
    }
  });

  it("never misses what a transaction under way is about to save", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { actor, boxes } = await newSet(trial);
    await record(actor, boxes[0]!, 50);
    let rowsSeen = 0;
    let pooling: Promise<void> | undefined;
    await db.$transaction(async (tx) => {
      const { ok } = await recordGrade(tx, actor, grade(boxes[1]!, 50));
      expect(ok).toBe(true);
      pooling = poolTrialNow(trial.id, async (work) => {
        rowsSeen = work.table.columns.n;
        return poolBothWays(work);
      });
      await new Promise((resolve) => setTimeout(resolve, 300));
    });
    await pooling;
    expect(rowsSeen).toBe(2);
  });
});

describe("the process that pools", () => {
  const workOf = (own: readonly PoolRow[]): PoolWork => ({
    table: poolTable(own),
    extras: NO_EXTRAS,
    options: { sensitivity: true, byGrower: true, factors: new Map() },
    interim: null,
  });
  const rows: PoolRow[] = Array.from({ length: 24 }, (_, i) => ({
    grower: `g${i % 6}`,
    outing: `g${i % 6}`,
    band: "mild-wet",
    arm: `arm${Math.floor(i / 6)}`,
    outcome: (i * 7) % 5,
    status: "graded",
  }));

  it("gives what pooling in place gives", async () => {
    const work = workOf(rows);
    expect(await poolInProcess(work, program)).toEqual(JSON.parse(JSON.stringify(poolBothWays(work))));
  });

  it("says why it failed", async () => {
    const split = [...rows, { ...rows[0]!, grower: "another" }];
    await expect(poolInProcess(workOf(split), program)).rejects.toThrow(/Outing g0 has rows of two growers/);
    const dying = join(folder, "dying.cjs");
    writeFileSync(dying, "process.kill(process.pid, 'SIGKILL')");
    await expect(poolInProcess(workOf(rows), dying)).rejects.toThrow(/want of memory/);
  });
});

describe("the queue", () => {
  afterEach(stopJobs);

  const until = async (condition: () => boolean) => {
    const deadline = Date.now() + 20_000;
    while (!condition()) {
      if (Date.now() > deadline) throw new Error("It did not happen within 20 s.");
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  };

  it("makes one run of a burst, and one more of a wish that comes while one works", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { actor, boxes } = await newSet(trial);
    const sizes: number[] = [];
    let release = () => {};
    const pool: Pool = async (work) => {
      const { n, labels } = work.table.columns;
      if (labels.outing.length !== 1) throw new Error("only this trial's rows");
      sizes.push(n);
      if (sizes.length === 1) await new Promise<void>((resolve) => (release = resolve));
      return poolBothWays(work);
    };
    await db.poolState.deleteMany({ where: { trialId: { not: trial.id } } });
    await startJobs(pool);
    for (const box of boxes.slice(0, 3)) {
      await record(actor, box, 50);
      await enqueuePool(trial.id);
    }
    await until(() => sizes.length === 1);
    expect(sizes).toEqual([3]);
    await record(actor, boxes[3]!, 50);
    await Promise.all([enqueuePool(trial.id), enqueuePool(trial.id)]);
    release();
    await until(() => sizes.length === 2);
    await new Promise((resolve) => setTimeout(resolve, 4000));
    expect(sizes).toEqual([3, 4]);
    expect(await db.poolResult.count({ where: { trialId: trial.id } })).toBe(2);
  });

  it("sends a wish that nobody sent, also after a run was cut off by a crash", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    await db.poolState.deleteMany();
    await db.$transaction((tx) => wantPool(tx, trial.id));
    await db.$executeRaw`
      INSERT INTO pgboss.job (name, data, state, singleton_key, policy, started_on)
      VALUES ('pool', jsonb_build_object('trialId', ${trial.id}::text), 'active', ${trial.id}, 'stately', now())`;
    let runs = 0;
    await startJobs(async (rows) => {
      runs++;
      return poolBothWays(rows);
    });
    await until(() => runs > 0);
  });
});
