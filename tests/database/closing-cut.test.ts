import { v7 } from "uuid";
import { expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { recordGrade } from "@/lib/services/growing/grades";
import { giveUpOuting } from "@/lib/services/growing/plan-outing";
import { recordWeather } from "@/lib/services/growing/weather";
import { closeTrial } from "@/lib/services/lead/close";
import { poolBothWays } from "@/lib/services/pool-both-ways";
import { poolTrialNow } from "@/lib/services/pooling";
import { grade, joinedGrower, type OpenTrial, ownGrounds, run, somebodyWaits } from "./growing-fixture";
import { drawnSet, ledTrial, tell } from "./lead-fixture";

const grounds = ownGrounds();

interface Running {
  readonly trial: OpenTrial;
  readonly lead: Actor;
  readonly grower: Actor;
  readonly siteId: string;
  readonly outingId: string;
  readonly boxIds: readonly string[];
}

/** An open trial with one set that is out; its first box is recorded. */
async function running(): Promise<Running> {
  const { db } = grounds;
  const { trial, lead } = await ledTrial(db);
  const { grower, siteId } = await joinedGrower(db, trial);
  const set = await drawnSet(db, trial, grower, siteId);
  await tell(db, grower, set.boxIds[0]!, "set-out");
  await run(db, (tx) => recordGrade(tx, grower, grade(set.boxIds[0]!, 40)));
  return { trial, lead, grower, siteId, ...set };
}

const weather = (outingId: string) => ({
  ...{ id: v7(), outingId },
  days: [{ day: new Date().toISOString().slice(0, 10), minC: 12, maxC: 22, rainMm: 3 }],
});
const close = ({ trial, lead }: Running) =>
  run(grounds.db, (tx) => closeTrial(tx, lead, trial.id, new Date()));
const pool = ({ trial }: Running) => poolTrialNow(trial.id, async (work) => poolBothWays(work));
const cutsOf = ({ trial }: Running) => grounds.db.poolResult.count({ where: { trialId: trial.id } });

/** Waits until a transaction of this database waits for another. */
async function untilSomebodyWaits(): Promise<void> {
  while (!(await somebodyWaits(grounds.db))) await new Promise((resolve) => setTimeout(resolve, 20));
}

type Write = (own: Running) => (tx: Transaction) => Promise<{ readonly ok: boolean }>;

it.each<[string, Write]>([
  [
    "weather",
    ({ grower, outingId }) =>
      (tx) =>
        recordWeather(tx, grower, weather(outingId)),
  ],
  [
    "a record",
    ({ grower, boxIds }) =>
      (tx) =>
        recordGrade(tx, grower, grade(boxIds[1]!, 90)),
  ],
])("waits with the close for %s under way, which is in the one closing cut", async (_, write) => {
  const own = await running();
  let closed: ReturnType<typeof close> | undefined;
  await grounds.db.$transaction(
    async (tx) => {
      expect(await write(own)(tx)).toMatchObject({ ok: true });
      closed = close(own);
      await untilSomebodyWaits();
    },
    { timeout: 20_000 },
  );
  expect(await closed).toMatchObject({ ok: true });
  await pool(own);
  await pool(own);
  expect(await cutsOf(own)).toBe(1);
});

it("leaves outside what began before the close and was written after it", async () => {
  const own = await running();
  const { db } = grounds;
  const late = await db.$transaction(
    async (tx) => {
      await tx.$queryRaw`SELECT 1`; // it has begun
      expect(await close(own)).toMatchObject({ ok: true });
      await pool(own);
      return recordGrade(tx, own.grower, grade(own.boxIds[1]!, 90));
    },
    { timeout: 20_000 },
  );
  expect(late).toMatchObject({ ok: true, value: { late: true } });
  expect(await run(db, (tx) => recordWeather(tx, own.grower, weather(own.outingId)))).toEqual({
    ok: false,
    reason: "WEATHER_TOO_LATE",
  });
  await pool(own);
  expect(await cutsOf(own)).toBe(1);
});

it("isn't changed by a set given up afterwards, though another stood at its spot on a later day", async () => {
  const { db } = grounds;
  const own = await running();
  const early = await drawnSet(db, own.trial, own.grower, own.siteId);
  await db.outing.update({ where: { id: early.outingId }, data: { day: new Date("2026-01-01") } });
  await close(own);
  await pool(own);
  const input = { id: v7(), outingId: early.outingId, reason: "weather", note: null } as const;
  expect(await run(db, (tx) => giveUpOuting(tx, own.grower, input))).toMatchObject({ ok: true });
  await pool(own);
  expect(await cutsOf(own)).toBe(1);
});

it("is one while a whole trial's growers note weather and its lead closes it", async () => {
  const { db } = grounds;
  const own = await running();
  const others = [];
  for (let i = 0; i < 5; i++) {
    const { grower, siteId } = await joinedGrower(db, own.trial);
    const set = await drawnSet(db, own.trial, grower, siteId);
    await tell(db, grower, set.boxIds[0]!, "set-out");
    others.push({ grower, outingId: set.outingId });
  }
  const writes = others.map(({ grower, outingId }) =>
    run(db, (tx) => recordWeather(tx, grower, weather(outingId))),
  );
  const closing = close(own).then(async (closed) => {
    expect(closed).toMatchObject({ ok: true });
    await pool(own);
  });
  await Promise.all([...writes, closing]);
  await pool(own);
  expect(await cutsOf(own)).toBe(1);
});
