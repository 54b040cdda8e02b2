import type { DemoTrialRows } from "@/lib/data/demo";
import type { RandomSource } from "@/lib/engine/random/source";
import { growthOf } from "@/lib/services/growing/grades";
import type { GradeMeasures } from "@/shared/schemas/grade";
import type { TakeClass } from "@/shared/vocabulary/growth";
import { between, idAt, pick } from "./chance";

export type RecordRows = Pick<DemoTrialRows, "events" | "grades">;

/** Central European Time, all year: the demo doesn't need summer time. */
export const OFFSET_MINUTES = 60;

/** A class next to the given one. */
export function neighbour(source: RandomSource, growth: TakeClass): TakeClass {
  if (growth === 0) return 1;
  if (growth === 4) return 3;
  return (source.unit() < 0.5 ? growth - 1 : growth + 1) as TakeClass;
}

const COVER_RANGES = [
  [0, 0],
  [1, 9],
  [10, 29],
  [30, 60],
  [61, 98],
] as const;

const DEPTHS = ["none", "surface", "between-grains", "through", "through"] as const;

/** A reading of a box with that growth. Most people type a per cent, some pick a picture, some measures are missing. */
export function measuresOf(source: RandomSource, growth: TakeClass): GradeMeasures {
  const typed = source.unit() < 0.7;
  const [low, high] = COVER_RANGES[growth];
  const off = offColourPercent(source);
  const totalMassG = between(source, 600, 1500);
  const usable = Math.round((totalMassG * between(source, growth * 15, growth * 20 + 10)) / 100);
  const weighed = source.unit() < 0.6;
  return {
    coverPercent: typed ? { value: between(source, low, high) } : null,
    coverClass: typed ? null : { value: growth },
    offColourPercent: {
      "blue-green": off,
      black: { value: 0 },
      "yellow-orange": { value: source.unit() < 0.1 ? 2 : 0 },
      "pink-red": source.unit() < 0.02 ? "cant_tell" : { value: 0 },
    },
    depth: { value: DEPTHS[growth] },
    wetness: { value: pick(source, ["moist", "moist", "wet", "dry"]) },
    warmth: source.unit() < 0.2 ? "not_measured" : { value: pick(source, ["same", "warmer"]) },
    smell: { value: [pick(source, ["mushroom", "earthy", "sweet", "none"])] },
    usableMassG: weighed ? { value: usable } : "not_measured",
    totalMassG: weighed ? { value: totalMassG } : "not_measured",
  };
}

function offColourPercent(source: RandomSource): { value: number } {
  const chance = source.unit();
  if (chance < 0.6) return { value: 0 };
  if (chance < 0.88) return { value: between(source, 1, 8) };
  return { value: between(source, 15, 40) };
}

export interface Grader {
  readonly graderId: string;
  readonly masked: boolean;
  readonly revision: number;
}

export function gradeRow(
  source: RandomSource,
  { id: boxId }: { readonly id: string },
  by: Grader,
  {
    at,
    receivedAt,
    measures,
  }: { readonly at: Date; readonly receivedAt: Date; readonly measures: GradeMeasures },
): RecordRows["grades"][number] {
  const { take, cleanTake } = growthOf(measures);
  const reading = { measures: { ...measures }, take: take.take, cleanTake: cleanTake.cleanTake };
  const moment = { recordedAt: at, offsetMinutes: OFFSET_MINUTES, receivedAt };
  return { id: idAt(source, at), boxId, ...by, ...reading, ...moment };
}
