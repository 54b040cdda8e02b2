import type { WeatherDay } from "@/shared/schemas/weather";
import type { Transaction } from "./client";

/** What was told of the days of an outing, in order. */
export async function weatherOf(tx: Transaction, outingId: string): Promise<WeatherDay[]> {
  const days = await tx.exposureDay.findMany({ where: { outingId }, orderBy: { day: "asc" } });
  const numberOf = (value: { toString(): string } | null) => (value === null ? null : Number(value));
  return days.map(({ day, minC, maxC, rainMm }) => ({
    day: day.toISOString().slice(0, 10),
    minC: numberOf(minC),
    maxC: numberOf(maxC),
    rainMm: numberOf(rainMm),
  }));
}

/** Keeps these days of an outing in place of all that was told of it before. */
export async function keepWeather(
  tx: Transaction,
  outingId: string,
  days: readonly WeatherDay[],
): Promise<void> {
  await tx.exposureDay.deleteMany({ where: { outingId } });
  await tx.exposureDay.createMany({
    data: days.map(({ day, ...read }) => ({ outingId, day: new Date(day), ...read })),
  });
}
