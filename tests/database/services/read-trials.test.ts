import { setTimeout } from "node:timers/promises";
import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import type { Database } from "@/lib/data/client";
import { wantPool } from "@/lib/data/pool-state";
import { readBoxFlow } from "@/lib/data/trials";
import { loadDemo } from "@/lib/demo/load";
import { poolBothWays } from "@/lib/services/pool-both-ways";
import { analysisTable } from "@/lib/services/pool-data";
import { poolTrialNow } from "@/lib/services/pooling";
import {
  readPublicBoxFlow,
  readResults,
  readTrial,
  readTrialPage,
  TRIALS_PER_PAGE,
} from "@/lib/services/read-trials";
import { DEMO_CLOSED_TRIAL, DEMO_OPEN_TRIAL } from "@/prisma/seed/trials";
import { poolResultSchema } from "@/shared/schemas/pool";
import { closeTrial, newOpenTrial, ownGrounds } from "../growing-fixture";

const NOW = new Date("2026-11-25T12:00:00Z");

const grounds = ownGrounds();
let db: Database;

beforeAll(async () => {
  db = grounds.db;
  await db.$transaction((tx) => loadDemo(tx, NOW, () => "none"), { timeout: 180_000 });
});

async function draft(slug: string): Promise<string> {
  const id = v7();
  const plan = { boxesMin: 2, boxesMax: 4, endsOn: new Date("2027-01-01"), grouping: [] };
  await db.trial.create({ data: { id, slug, title: slug, question: "Which?", joinCode: slug, ...plan } });
  return id;
}

/** A client that counts the statements it sends. */
function counting(): { client: Database; sent: () => number } {
  let count = 0;
  const client = db.$extends({
    query: {
      $allOperations: ({ args, query }) => {
        count++;
        return query(args);
      },
    },
  });
  return { client: client as unknown as Database, sent: () => count };
}

describe("a trial as anyone may see it", () => {
  it("shows recipes with their water by weight and moisture, seats, plan and proof", async () => {
    const trial = (await readTrial(DEMO_CLOSED_TRIAL.slug, db))!;
    expect(trial.recipes).toHaveLength(6);
    for (const { content, moisture } of trial.recipes) {
      expect(moisture?.waterMassPerGrainMass).toBe(content.waterToGrain);
      expect(moisture!.moisture).toBeGreaterThan(moisture!.rawMoisture);
    }
    expect(trial.regions).toHaveLength(4);
    expect(trial.regions.every(({ seatsTaken, capacity }) => seatsTaken <= capacity)).toBe(true);
    expect(trial.drawCount).toBe(await db.draw.count({ where: { trialId: trial.id } }));
    const last = await db.draw.findFirst({ where: { trialId: trial.id }, orderBy: { number: "desc" } });
    expect(trial.lastHash).toBe(last!.hash);
    expect(trial.openedSecret).toMatch(/^[0-9a-f]{64}$/);
  });

  it("keeps the secret until the close, and keeps drafts from everyone", async () => {
    expect((await readTrial(DEMO_OPEN_TRIAL.slug, db))!.openedSecret).toBeNull();
    await draft("still-a-draft");
    expect(await readTrial("still-a-draft", db)).toBeNull();
    const listed = await Promise.all([
      readTrialPage("open", undefined, db),
      readTrialPage("closed", undefined, db),
    ]);
    expect(listed.flatMap(({ trials }) => trials.map(({ slug }) => slug))).not.toContain("still-a-draft");
  });

  it("carries nothing of the people in it", async () => {
    const shown = JSON.stringify([
      await readTrial(DEMO_OPEN_TRIAL.slug, db),
      await readTrialPage("open", undefined, db),
      await readPublicBoxFlow(DEMO_OPEN_TRIAL.id, db),
    ]);
    const people = await db.account.findMany({ select: { email: true, id: true, growerId: true } });
    const seats = await db.enrolment.findMany({ select: { pseudonym: true, householdId: true } });
    for (const { email, id, growerId } of people) {
      for (const secret of [email, id, growerId]) expect(shown).not.toContain(secret);
    }
    for (const { pseudonym, householdId } of seats) {
      expect(shown).not.toContain(`"${pseudonym}"`);
      expect(shown).not.toContain(householdId);
    }
  });
});

describe("the list", () => {
  it("goes from page to page by key, newest first, each trial once", async () => {
    const made = new Set<string>();
    for (let i = 0; i < TRIALS_PER_PAGE + 3; i++) made.add((await newOpenTrial(db)).id);
    const first = await readTrialPage("open", undefined, db);
    expect(first.trials).toHaveLength(TRIALS_PER_PAGE);
    // One that opens meanwhile moves nothing on the next page, as an offset would.
    await newOpenTrial(db);
    const second = await readTrialPage("open", first.next!, db);
    expect(second.next).toBeNull();
    const ids = [...first.trials, ...second.trials].map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).toEqual([...ids].sort().reverse());
    for (const id of made) expect(ids).toContain(id);
    expect([...first.trials, ...second.trials].every(({ status }) => status === "open")).toBe(true);
  });

  it("starts from the first page when the key is none", async () => {
    const first = await readTrialPage("open", undefined, db);
    expect(await readTrialPage("open", "'; DROP TABLE trial; --", db)).toEqual(first);
  });
});

describe("how far the boxes have come", () => {
  it("loses exactly the boxes the analysis counts as lost", async () => {
    const { closedAt } = await db.trial.findUniqueOrThrow({ where: { id: DEMO_CLOSED_TRIAL.id } });
    const { table } = await analysisTable(db, DEMO_CLOSED_TRIAL.id, closedAt!);
    const flow = await readBoxFlow(db, DEMO_CLOSED_TRIAL.id);
    const { n, lost, labels } = table.columns;
    expect(flow.drawn).toBe(n);
    expect(flow.lost).toBe(lost.filter((one) => one === 1).length);
    expect(flow.lost).toBeGreaterThan(0);
    expect(flow.households).toBe(labels.grower.length);
  });

  it("doesn't count what arrived after the close", async () => {
    const before = await readBoxFlow(db, DEMO_CLOSED_TRIAL.id);
    const box = await db.box.findFirstOrThrow({
      where: {
        grades: { none: {} },
        allocation: {},
        outing: { trialId: DEMO_CLOSED_TRIAL.id, status: "drawn" },
      },
      include: { outing: true },
    });
    const late = { recordedAt: NOW, offsetMinutes: 0, measures: {}, take: 4, cleanTake: true };
    await db.grade.create({
      data: { id: v7(), boxId: box.id, graderId: box.outing.growerId, revision: 1, ...late },
    });
    expect(await readBoxFlow(db, DEMO_CLOSED_TRIAL.id)).toEqual(before);
  });

  it("counts no event that was taken back", async () => {
    const before = await readBoxFlow(db, DEMO_OPEN_TRIAL.id);
    const event = await db.boxEvent.findFirstOrThrow({
      where: {
        ...{ kind: "set-out", withdrawnBy: null },
        // Of a box of which nothing later is known that it follows from.
        box: {
          ...{ outing: { trialId: DEMO_OPEN_TRIAL.id }, grades: { none: {} } },
          events: { none: { kind: { in: ["fetched", "opened"] } } },
        },
      },
    });
    const { boxId, growerId, occurredAt, offsetMinutes, id: withdrawsId } = event;
    await db.boxEvent.create({
      data: { id: v7(), boxId, growerId, occurredAt, offsetMinutes, kind: "withdrawal", withdrawsId },
    });
    const after = await readBoxFlow(db, DEMO_OPEN_TRIAL.id);
    expect(after).toEqual({ ...before, setOut: before.setOut - 1 });
  });

  it("goes by the last word on whether a box was cooked, and by what it has stood through since", async () => {
    const box = await db.box.findFirstOrThrow({
      where: {
        ...{ allocation: {}, outing: { trial: { status: "open" } }, grades: { none: {} } },
        events: { none: { kind: { in: ["set-out", "fetched", "opened"] } } },
      },
      include: { outing: true },
    });
    const { trialId } = box.outing;
    const cookedAfter = async (kind: string): Promise<number> => {
      const at = { occurredAt: NOW, offsetMinutes: 0, growerId: box.outing.growerId };
      await db.boxEvent.create({ data: { id: v7(), boxId: box.id, kind, ...at } });
      return (await readBoxFlow(db, trialId)).cooked;
    };
    const without = await cookedAfter("not-cooked");
    expect(await cookedAfter("cooked-otherwise")).toBe(without + 1);
    expect(await cookedAfter("not-cooked")).toBe(without);
    const { setOut } = await readBoxFlow(db, trialId);
    expect(await cookedAfter("fetched")).toBe(without + 1);
    expect((await readBoxFlow(db, trialId)).setOut).toBe(setOut + 1);
  });

  it("has never come farther than the step before", async () => {
    for (const { id } of [DEMO_OPEN_TRIAL, DEMO_CLOSED_TRIAL]) {
      const { drawn, cooked, setOut, opened, recorded } = await readBoxFlow(db, id);
      const steps = [drawn, cooked, setOut, opened, recorded];
      expect(steps).toEqual([...steps].sort((a, b) => b - a));
      expect(recorded).toBeGreaterThan(0);
    }
  });

  it("is rounded down to fives, and hidden while it rests on too few", async () => {
    const exact = await readBoxFlow(db, DEMO_CLOSED_TRIAL.id);
    const shown = (await readPublicBoxFlow(DEMO_CLOSED_TRIAL.id, db))!;
    for (const step of ["drawn", "cooked", "setOut", "opened", "recorded", "lost"] as const) {
      expect(shown[step] % 5).toBe(0);
      expect(exact[step] - shown[step]).toBeGreaterThanOrEqual(0);
      expect(exact[step] - shown[step]).toBeLessThan(5);
    }
    expect(Object.keys(shown)).not.toContain("households");
    const empty = await newOpenTrial(db);
    expect(await readPublicBoxFlow(empty.id, db)).toBeNull();
  });
});

describe("everyone's results", () => {
  it("are the stored published result, read with the trial in two queries", async () => {
    const { client, sent } = counting();
    const trial = (await readTrial(DEMO_CLOSED_TRIAL.slug, client))!;
    const results = await readResults(trial, client);
    expect(sent()).toBe(2);
    const stored = await db.poolResult.findFirstOrThrow({ where: { trialId: trial.id } });
    expect(results).toMatchObject({ state: "out", computedAt: stored.computedAt, newerWanted: false });
    if (results.state !== "out") return;
    expect(results.result).toEqual(stored.published);
    poolResultSchema.parse(results.result);
  });

  it("stay hidden while the trial is open, whatever is stored", async () => {
    const trial = (await readTrial(DEMO_OPEN_TRIAL.slug, db))!;
    await poolNow(trial.id);
    expect(await db.poolResult.count({ where: { trialId: trial.id } })).toBe(1);
    expect(await readResults(trial, db)).toEqual({ state: "hidden" });
  });

  it("wait, after the close, for a cut taken after it, and come out even when it turned out the same", async () => {
    const fresh = await newOpenTrial(db);
    await poolNow(fresh.id);
    await setTimeout(3);
    await closeTrial(db, fresh);
    const { slug } = await db.trial.findUniqueOrThrow({ where: { id: fresh.id } });
    const trial = (await readTrial(slug, db))!;
    expect(await readResults(trial, db)).toEqual({ state: "on-its-way" });
    for (let again = 0; again < 2; again++) await poolNow(fresh.id);
    const kept = await db.poolResult.count({ where: { trialId: fresh.id } });
    expect(kept, "the open trial's, which is not worked out whole, and the final one once").toBe(2);
    expect(await readResults(trial, db)).toMatchObject({ state: "out", newerWanted: false });
    await db.$transaction((tx) => wantPool(tx, fresh.id));
    expect(await readResults(trial, db)).toMatchObject({ state: "out", newerWanted: true });
  });
});

async function poolNow(trialId: string): Promise<void> {
  await db.$transaction((tx) => wantPool(tx, trialId));
  // A wish within the cut's own millisecond counts as newer.
  await setTimeout(3);
  await poolTrialNow(trialId, async (work) => poolBothWays(work));
}
