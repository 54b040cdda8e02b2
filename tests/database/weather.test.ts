import { v7 } from "uuid";
import { expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { trialsWaitingForPool } from "@/lib/data/pool-state";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { recordWeather, setWeather } from "@/lib/services/growing/weather";
import { type WeatherDay, weatherSchema } from "@/shared/schemas/weather";
import {
  closeTrial,
  drawnOuting,
  joinedGrower,
  newGrower,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  plan,
  run,
  setOutLast,
} from "./growing-fixture";

const grounds = ownGrounds();

/** A drawn set that has been out for so many days. */
async function setOutSince(daysAgo: number): Promise<{ trial: OpenTrial; grower: Actor; outingId: string }> {
  const { db } = grounds;
  const trial = await newOpenTrial(db);
  const who = await joinedGrower(db, trial);
  const { grower } = who;
  const outing = await drawnOuting(db, trial, who);
  const [box] = outing.boxes;
  const occurredAt = new Date(Date.now() - daysAgo * 86_400_000);
  await db.boxEvent.create({
    data: {
      id: v7(),
      boxId: box!.id,
      growerId: grower.growerId,
      kind: "set-out",
      occurredAt,
      offsetMinutes: 0,
    },
  });
  return { trial, grower, outingId: outing.id };
}

const dayAgo = (days: number): string => new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10);
const read = (day: string, more: Partial<WeatherDay> = {}): WeatherDay => ({
  ...{ day, minC: 15, maxC: 25, rainMm: 2.5 },
  ...more,
});

it("keeps a grower's readings of the five days from set-out and tells what the boxes stood in", async () => {
  const { db } = grounds;
  const { trial, grower, outingId } = await setOutSince(6);
  const page = () => db.$transaction((tx) => setWeather(tx, grower, outingId));
  expect((await page())!.days.map(({ day }) => day)).toEqual([6, 5, 4, 3, 2].map(dayAgo));
  expect((await page())!.exposure).toBeNull();

  const days = [6, 5, 4, 3, 2].map((ago) => read(dayAgo(ago)));
  const told = await run(db, (tx) => recordWeather(tx, grower, { id: v7(), outingId, days }));
  expect(told).toMatchObject({ ok: true });
  // Five days at 20 °C on average, all between 5 and 35 °C: 5 × 15 degree-days.
  expect((await page())!.exposure).toEqual({ meanC: 20, degreeDays: 75, rainMm: 12.5 });
  expect(await trialsWaitingForPool(db)).toContain(trial.id);

  // Sent again with less, the rest is gone.
  const fewer = [
    read(days[0]!.day, { maxC: null }),
    read(days[1]!.day, { minC: null, maxC: null, rainMm: null }),
  ];
  await run(db, (tx) => recordWeather(tx, grower, { id: v7(), outingId, days: fewer }));
  expect((await page())!.days.filter(({ minC, rainMm }) => minC !== null || rainMm !== null)).toEqual([
    fewer[0],
  ]);
});

it("refuses other days, days to come, a set that isn't out, another's, and what comes after the close", async () => {
  const { db } = grounds;
  const { trial, grower, outingId } = await setOutSince(1);
  const tell = (who: Actor, ...days: WeatherDay[]) =>
    run(db, (tx) => recordWeather(tx, who, { id: v7(), outingId, days }));
  expect(await tell(grower, read(dayAgo(2)))).toEqual({ ok: false, reason: "WEATHER_OF_OTHER_DAYS" });
  expect(await tell(grower, read(dayAgo(-3)))).toEqual({ ok: false, reason: "MOMENT_IN_FUTURE" });
  const stranger = await newGrower(db, "Somebody else");
  expect(await tell(stranger, read(dayAgo(1)))).toEqual({ ok: false, reason: "NOT_FOUND" });
  expect(await db.$transaction((tx) => setWeather(tx, stranger, outingId))).toBeNull();
  expect(await tell(grower, read(dayAgo(1)))).toMatchObject({ ok: true });

  await closeTrial(db, trial);
  expect(await tell(grower, read(dayAgo(1), { minC: 1 }))).toEqual({ ok: false, reason: "WEATHER_TOO_LATE" });
  expect(await db.$transaction((tx) => setWeather(tx, grower, outingId))).toMatchObject({
    isOpen: false,
    days: expect.arrayContaining([expect.objectContaining({ day: dayAgo(1), minC: 15 })]),
  });
  // Since yesterday: today has come, and where days begin first tomorrow.
  const { days, toCome } = (await db.$transaction((tx) => setWeather(tx, grower, outingId)))!;
  expect(days.length + toCome).toBe(5);
  expect([2, 3]).toContain(days.length);

  const indoors = await newOpenTrial(db);
  const other = await joinedGrower(db, indoors);
  const planned = plan(indoors, other.siteId);
  await run(db, (tx) => planOuting(tx, other.grower, planned));
  await run(db, (tx) => drawOuting(tx, other.grower, { id: v7(), outingId: planned.id }));
  const early = { id: v7(), outingId: planned.id, days: [] };
  expect(await run(db, (tx) => recordWeather(tx, other.grower, early))).toEqual({
    ok: false,
    reason: "NOT_SET_OUT_YET",
  });
  await setOutLast(db, planned.id);
  expect(await run(db, (tx) => recordWeather(tx, other.grower, early))).toMatchObject({ ok: true });
});

it.each([
  [{ minC: 12, maxC: 11 }, "maxC", "weather.temperature.order"],
  [{ minC: -61 }, "minC", "weather.temperature.range"],
  [{ maxC: 21.25 }, "maxC", "weather.temperature.tooFine"],
  [{ maxC: "warm" }, "maxC", "weather.temperature.number"],
  [{ rainMm: -1 }, "rainMm", "weather.rain.range"],
])("names the reading at fault: %o", (wrong, field, code) => {
  const days = [{ ...read("2026-09-01"), ...wrong }];
  const parsed = weatherSchema.safeParse({ id: v7(), outingId: v7(), days });
  expect(parsed.error!.issues.map(({ path, message }) => [path.join("."), message])).toEqual([
    [`days.0.${field}`, code],
  ]);
});
