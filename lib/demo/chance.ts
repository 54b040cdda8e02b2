import { v7 } from "uuid";
import type { RandomSource } from "@/lib/engine/random/source";

/** A standard normal by Box & Muller's transform (1958). */
export function normal(source: RandomSource): number {
  return Math.sqrt(-2 * Math.log(1 - source.unit())) * Math.cos(2 * Math.PI * source.unit());
}

/** One of the items, each equally likely. */
export function pick<T>(source: RandomSource, items: readonly T[]): T {
  return items[source.below(items.length)]!;
}

/** A whole number from `low` to `high`, both included. */
export function between(source: RandomSource, low: number, high: number): number {
  return low + source.below(high - low + 1);
}

/** A UUID version 7 of that moment whose random part comes from the source. */
export function idAt(source: RandomSource, at: Date): string {
  return v7({ msecs: at.getTime(), random: Uint8Array.from({ length: 16 }, () => source.below(256)) });
}

const MINUTE_MS = 60_000;

export function minutesAfter(at: Date, minutes: number): Date {
  return new Date(at.getTime() + minutes * MINUTE_MS);
}

export function daysAfter(at: Date, days: number): Date {
  return minutesAfter(at, days * 24 * 60);
}
