import type { DemoTrialRows } from "@/lib/data/demo";
import type { RandomSource } from "@/lib/engine/random/source";
import { growthOf } from "@/lib/services/growing/grades";
import type { GradeMeasures } from "@/shared/schemas/grade";
import type { BoxEventKind } from "@/shared/vocabulary/box";
import type { TakeClass } from "@/shared/vocabulary/growth";
import { between, daysAfter, idAt, minutesAfter, normal, pick } from "./chance";
import type { DrawnBox } from "./sets";
import { CUTS, LOSS_KINDS, SHARES, STANDARD_DEVIATIONS, TRUTH } from "./truth";

type RecordRows = Pick<DemoTrialRows, "events" | "grades">;

/** Central European Time, all year: the demo doesn't need summer time. */
const OFFSET_MINUTES = 60;

/**
 * What became of the boxes: their growth by the stated truth, losses that hit every arm alike, and what their
 * growers told. Nothing is told of a box after `until`.
 */
export function growBoxes(
  source: RandomSource,
  boxes: readonly DrawnBox[],
  maskedGraderId: string,
  until: Date,
): RecordRows {
  const rows: RecordRows = { events: [], grades: [] };
  const effects = new Map<string, number>();
  const effect = (key: string, sd: number) => {
    const known = effects.get(key) ?? sd * normal(source);
    effects.set(key, known);
    return known;
  };
  const daysOut = new Map<string, number>();
  for (const box of boxes) {
    const truth = TRUTH[box.band]!;
    const latent =
      truth.base +
      truth.armEffects[box.variant]! +
      effect(`grower ${box.pseudonym}`, STANDARD_DEVIATIONS.grower) +
      effect(`grower ${box.pseudonym} arm ${box.variant}`, STANDARD_DEVIATIONS.growerArm) +
      effect(`outing ${box.outingId}`, STANDARD_DEVIATIONS.outing) +
      STANDARD_DEVIATIONS.box * normal(source);
    const growth = CUTS.filter((cut) => latent > cut).length as TakeClass;
    const days = daysOut.get(box.outingId) ?? between(source, 4, 9);
    daysOut.set(box.outingId, days);
    tellBox(source, rows, box, { growth, days, maskedGraderId, until });
  }
  return rows;
}

function tellBox(
  source: RandomSource,
  rows: RecordRows,
  box: DrawnBox,
  {
    growth,
    days,
    maskedGraderId,
    until,
  }: { growth: TakeClass; days: number; maskedGraderId: string; until: Date },
): void {
  const fetchedAt = minutesAfter(daysAfter(box.setOutAt, days), between(source, -120, 120));
  const openedAt = minutesAfter(fetchedAt, between(source, 20, 180));
  const isLost = source.unit() < SHARES.lost;
  const tell = (kind: BoxEventKind, at: Date) => {
    const receivedAt = minutesAfter(at, between(source, 1, 240));
    if (receivedAt > until) return;
    rows.events.push({
      id: idAt(source, at),
      boxId: box.id,
      growerId: box.growerId,
      kind,
      occurredAt: at,
      offsetMinutes: OFFSET_MINUTES,
      receivedAt,
    });
  };
  const cookedOtherwise = source.unit() < SHARES.cookedOtherwise;
  tell(cookedOtherwise ? "cooked-otherwise" : "cooked-as-drawn", minutesAfter(box.setOutAt, -100));
  tell("set-out", box.setOutAt);
  tell("fetched", fetchedAt);
  tell("opened", openedAt);
  if (isLost) {
    tell(lossKind(source), fetchedAt);
    tell("growth-not-recordable", openedAt);
    return;
  }
  tell(source.unit() < SHARES.lookedIn ? "looked-in" : "nothing-happened", fetchedAt);
  tell("growth-recordable", openedAt);
  const grade = (graderId: string, masked: boolean, revision: number, at: Date, measures: GradeMeasures) => {
    const receivedAt = minutesAfter(at, between(source, 1, 300));
    if (receivedAt > until) return;
    const { take, cleanTake } = growthOf(measures);
    rows.grades.push({
      id: idAt(source, at),
      boxId: box.id,
      graderId,
      masked,
      revision,
      measures: { ...measures },
      take: take.take,
      cleanTake: cleanTake.cleanTake,
      recordedAt: at,
      offsetMinutes: OFFSET_MINUTES,
      receivedAt,
    });
  };
  const isCorrected = source.unit() < SHARES.corrected;
  const firstLook = isCorrected ? neighbour(source, growth) : growth;
  grade(box.growerId, false, 1, minutesAfter(openedAt, 10), measuresOf(source, firstLook));
  if (isCorrected) grade(box.growerId, false, 2, minutesAfter(openedAt, 400), measuresOf(source, growth));
  if (source.unit() < SHARES.secondLook) {
    const seen = source.unit() < 0.8 ? growth : neighbour(source, growth);
    const picture = {
      ...measuresOf(source, seen),
      warmth: null,
      smell: null,
      usableMassG: null,
      totalMassG: null,
    };
    grade(maskedGraderId, true, 1, daysAfter(openedAt, between(source, 1, 4)), picture);
  }
}

function lossKind(source: RandomSource): BoxEventKind {
  let left = source.unit();
  for (const { kind, share } of LOSS_KINDS) {
    left -= share;
    if (left < 0) return kind;
  }
  return LOSS_KINDS[0].kind;
}

/** A class next to the given one. */
function neighbour(source: RandomSource, growth: TakeClass): TakeClass {
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
function measuresOf(source: RandomSource, growth: TakeClass): GradeMeasures {
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
