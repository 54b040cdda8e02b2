import type { RandomSource } from "@/lib/engine/random/source";
import type { GradeMeasures } from "@/shared/schemas/grade";
import type { BoxEventKind } from "@/shared/vocabulary/box";
import type { TakeClass } from "@/shared/vocabulary/growth";
import { between, daysAfter, idAt, minutesAfter, normal } from "./chance";
import { type Grader, gradeRow, measuresOf, neighbour, OFFSET_MINUTES, type RecordRows } from "./readings";
import type { DrawnBox } from "./sets";
import { tellStory } from "./stories";
import { CUTS, LOSS_KINDS, SHARES, STANDARD_DEVIATIONS, TRUTH } from "./truth";

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
    if (box.story) {
      tellStory(source, rows, { ...box, story: box.story }, growth);
      continue;
    }
    const days = daysOut.get(box.outingId) ?? between(source, 4, 9);
    daysOut.set(box.outingId, days);
    const fetchedAt = minutesAfter(daysAfter(box.setOutAt, days), between(source, -120, 120));
    const openedAt = minutesAfter(fetchedAt, between(source, 20, 180));
    const course = { growth, fetchedAt, openedAt, until };
    if (tellEvents(source, rows, box, course)) gradeBox(source, rows, box, maskedGraderId, course);
  }
  return rows;
}

interface Course {
  readonly growth: TakeClass;
  readonly fetchedAt: Date;
  readonly openedAt: Date;
  readonly until: Date;
}

/** The events of one box; says whether its growth could be recorded. */
function tellEvents(source: RandomSource, rows: RecordRows, box: DrawnBox, course: Course): boolean {
  const { fetchedAt, openedAt, until } = course;
  const tell = (kind: BoxEventKind, at: Date) => {
    const receivedAt = minutesAfter(at, between(source, 1, 240));
    if (receivedAt > until) return;
    const { id: boxId, growerId } = box;
    const moment = { occurredAt: at, offsetMinutes: OFFSET_MINUTES, receivedAt };
    rows.events.push({ id: idAt(source, at), boxId, growerId, kind, ...moment });
  };
  const isLost = source.unit() < SHARES.lost;
  const cookedOtherwise = source.unit() < SHARES.cookedOtherwise;
  tell(cookedOtherwise ? "cooked-otherwise" : "cooked-as-drawn", minutesAfter(box.setOutAt, -100));
  tell("set-out", box.setOutAt);
  tell("fetched", fetchedAt);
  tell("opened", openedAt);
  const quiet = source.unit() < SHARES.lookedIn ? "looked-in" : "nothing-happened";
  tell(isLost ? lossKind(source) : quiet, fetchedAt);
  tell(isLost ? "growth-not-recordable" : "growth-recordable", openedAt);
  return !isLost;
}

/** The grower's own grade, corrected now and then, and for some boxes a second look at pictures. */
function gradeBox(
  source: RandomSource,
  rows: RecordRows,
  box: DrawnBox,
  maskedGraderId: string,
  { growth, openedAt, until }: Course,
): void {
  const grade = (by: Grader, at: Date, measures: GradeMeasures) => {
    const receivedAt = minutesAfter(at, between(source, 1, 300));
    if (receivedAt > until) return;
    rows.grades.push(gradeRow(source, box, by, { at, receivedAt, measures }));
  };
  const own = { graderId: box.growerId, masked: false };
  const isCorrected = source.unit() < SHARES.corrected;
  const firstLook = isCorrected ? neighbour(source, growth) : growth;
  grade({ ...own, revision: 1 }, minutesAfter(openedAt, 10), measuresOf(source, firstLook));
  if (isCorrected) {
    grade({ ...own, revision: 2 }, minutesAfter(openedAt, 400), measuresOf(source, growth));
  }
  if (source.unit() >= SHARES.secondLook) return;
  const seen = source.unit() < SHARES.secondLookAgrees ? growth : neighbour(source, growth);
  const unseen = { warmth: null, smell: null, usableMassG: null, totalMassG: null };
  grade({ graderId: maskedGraderId, masked: true, revision: 1 }, daysAfter(openedAt, between(source, 1, 4)), {
    ...measuresOf(source, seen),
    ...unseen,
  });
}

function lossKind(source: RandomSource): BoxEventKind {
  let left = source.unit();
  for (const { kind, share } of LOSS_KINDS) {
    left -= share;
    if (left < 0) return kind;
  }
  return LOSS_KINDS[0].kind;
}
