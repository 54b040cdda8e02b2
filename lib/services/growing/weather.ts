import type { Actor } from "@/lib/auth/actor";
import { type BoxEventRow, lockOwnBoxes, standingEvents } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import { findOwnOuting, findTrialRules } from "@/lib/data/outings";
import { wantPool } from "@/lib/data/pool-state";
import { keepWeather, weatherOf } from "@/lib/data/weather";
import { EXPOSURE_DAYS, type Exposure, exposureOf } from "@/lib/engine/climate/exposure";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { WeatherDay, WeatherInput } from "@/shared/schemas/weather";

/** The weather of a set that is out. */
export interface SetWeather {
  readonly outingId: string;
  readonly code: string;
  /** The days of the window from set-out that have come, with what was told of them. */
  readonly days: readonly WeatherDay[];
  /** How many days of the window are still to come. */
  readonly toCome: number;
  /** What the boxes stood in; null while a temperature is missing. */
  readonly exposure: Exposure | null;
  /** Whether it may still be told: while its trial is open. */
  readonly isOpen: boolean;
}

/** Null for a set that isn't the actor's or isn't out yet. */
export async function setWeather(
  tx: Transaction,
  actor: Actor,
  outingId: string,
): Promise<SetWeather | null> {
  const outing = await findOwnOuting(tx, actor.growerId, outingId);
  if (!outing) return null;
  const window = windowOf(
    await standingEvents(
      tx,
      outing.boxes.map(({ id }) => id),
    ),
  );
  if (!window) return null;
  const told = new Map((await weatherOf(tx, outingId)).map((day) => [day.day, day]));
  const come = window.filter((day) => day <= latestToday(new Date()));
  const days = come.map((day) => told.get(day) ?? { day, minC: null, maxC: null, rainMm: null });
  const trial = await findTrialRules(tx, outing.trialId);
  return {
    outingId,
    code: outing.code,
    days,
    toCome: window.length - come.length,
    exposure: exposureOf(days.map(completeDay)),
    isOpen: trial?.status === "open",
  };
}

/**
 * Keeps the weather of the actor's set in place of what was told of it before. Only while its trial is open: what closed
 * results rest on stays as it was.
 */
export async function recordWeather(
  tx: Transaction,
  actor: Actor,
  { outingId, days }: WeatherInput,
): Promise<
  Result<
    { readonly outingId: string; readonly trialId: string },
    "NOT_FOUND" | "NOT_SET_OUT_YET" | "WEATHER_TOO_LATE" | "WEATHER_OF_OTHER_DAYS" | "MOMENT_IN_FUTURE"
  >
> {
  const boxes = await lockOwnBoxes(tx, actor, outingId);
  const [first] = boxes;
  if (!first) return refuse("NOT_FOUND");
  if (first.trialStatus !== "open") return refuse("WEATHER_TOO_LATE");
  const window = windowOf(
    await standingEvents(
      tx,
      boxes.map(({ id }) => id),
    ),
  );
  if (!window) return refuse("NOT_SET_OUT_YET");
  if (days.some(({ day }) => !window.includes(day))) return refuse("WEATHER_OF_OTHER_DAYS");
  const told = days.filter(({ minC, maxC, rainMm }) => minC !== null || maxC !== null || rainMm !== null);
  if (told.some(({ day }) => day > latestToday(new Date()))) return refuse("MOMENT_IN_FUTURE");
  await keepWeather(tx, outingId, told);
  await wantPool(tx, first.trialId);
  return done({ outingId, trialId: first.trialId });
}

/** The days of a set's window, from the first that a box of it was out, where it stood; null before. */
function windowOf(events: readonly BoxEventRow[]): string[] | null {
  const days = events
    .filter(({ kind }) => kind === "set-out")
    .map(({ occurredAt, offsetMinutes }) => dayAt(occurredAt.getTime() + offsetMinutes * 60_000))
    .sort();
  const [first] = days;
  if (first === undefined) return null;
  return Array.from({ length: EXPOSURE_DAYS }, (_, i) => dayAt(Date.parse(first) + i * 86_400_000));
}

/** The latest calendar day that it may be anywhere on land: clocks go up to UTC + 14. */
function latestToday(now: Date): string {
  return dayAt(now.getTime() + 14 * 3_600_000);
}

function dayAt(ms: number): string {
  return new Date(ms).toISOString().slice(0, 10);
}

function completeDay({ minC, maxC, rainMm }: WeatherDay) {
  return minC === null || maxC === null ? null : { minC, maxC, rainMm };
}
