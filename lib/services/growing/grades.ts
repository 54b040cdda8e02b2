import { v7 } from "uuid";
import type { Recorder } from "@/lib/auth/actor";
import { insertBoxEvent, keepNote, lockOwnBox, type OwnBox, standingEvents } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import { answerByRecord } from "@/lib/data/corrections";
import { insertGrade, standingGrades } from "@/lib/data/grades";
import { wantPool } from "@/lib/data/pool-state";
import {
  type CleanTakeResult,
  cleanTakeOf,
  type OffColourTotal,
  offColourTotal,
  type TakeResult,
  takeOf,
} from "@/lib/engine/grading/take";
import { done, type Refusal, type Result, refuse } from "@/lib/errors/result";
import type { GradeInput, GradeMeasures } from "@/shared/schemas/grade";
import { type Moment, momentFault, momentOf } from "./moments";
import { type StageRefusal, stageFault } from "./stage-order";

/** What follows from a grade's measures, each with its reason. */
export interface Growth {
  readonly take: TakeResult;
  readonly offColour: OffColourTotal;
  readonly cleanTake: CleanTakeResult;
}

export interface RecordedGrade extends Growth {
  readonly gradeId: string;
  readonly trialId: string;
  readonly revision: number;
  /** Whether the trial had closed: the record is kept, but the closing results don't rest on it. */
  readonly late: boolean;
}

type GradeRefusal =
  | "NOT_FOUND"
  | "NOT_DRAWN_YET"
  | "MOMENT_IN_FUTURE"
  | "MOMENT_BEFORE_OUTING"
  | "CHANGED_MEANWHILE"
  | StageRefusal
  | "RECORDED_BY_GROWER";

export function growthOf(measures: GradeMeasures): Growth {
  const take = takeOf(measures);
  const offColour = offColourTotal(measures.offColourPercent);
  return { take, offColour, cleanTake: cleanTakeOf(take, offColour) };
}

/**
 * Keeps a reading of a box of the recorder's: the first one, or a further revision made from the one that stands.
 * Earlier revisions stay. A helper corrects only what a helper recorded. Not masked: whoever set out a box knows its recipe.
 */
export async function recordGrade(
  tx: Transaction,
  recorder: Recorder,
  input: GradeInput,
): Promise<Result<RecordedGrade, GradeRefusal>> {
  const box = await lockOwnBox(tx, recorder, input.boxId);
  if (!box) return refuse("NOT_FOUND");
  if (!box.committedAt) return refuse("NOT_DRAWN_YET");
  const recorded = momentOf(input.recordedAt);
  const opened = input.openedAt === null ? null : momentOf(input.openedAt);
  const now = new Date();
  const fault = momentFault(recorded, box, now) ?? (opened && momentFault(opened, box, now));
  if (fault) return fault;
  const viaHelper = recorder.onlyOutingId !== undefined;
  const [standing] = await standingGrades(tx, recorder.growerId, [box.id]);
  if (viaHelper && standing && !standing.viaHelper) return refuse("RECORDED_BY_GROWER");
  if ((standing?.revision ?? null) !== input.basedOn) return refuse("CHANGED_MEANWHILE");

  const growth = growthOf(input.measures);
  const revision = (standing?.revision ?? 0) + 1;
  const kept = await insertGrade(tx, {
    id: input.id,
    boxId: box.id,
    graderId: recorder.growerId,
    revision,
    measures: input.measures,
    take: growth.take.take,
    cleanTake: growth.cleanTake.cleanTake,
    recordedAt: recorded.at,
    offsetMinutes: recorded.offsetMinutes,
    viaHelper,
  });
  if (!kept) return refuse("NOT_FOUND");
  const misplaced = opened && (await noteOpening(tx, recorder, box, opened));
  if (misplaced) return misplaced;
  if (input.note) {
    const { accountId } = recorder;
    await keepNote(tx, { id: v7(), accountId, subjectId: input.id, text: input.note });
  }
  await answerByRecord(tx, box.id, now);
  await wantPool(tx, box.trialId);
  return done({
    ...growth,
    gradeId: input.id,
    trialId: box.trialId,
    revision,
    late: box.trialStatus === "closed",
  });
}

/** The hour a grade was made at the open box also says when it was opened, unless that is on record. */
async function noteOpening(
  tx: Transaction,
  recorder: Recorder,
  box: OwnBox,
  opened: Moment,
): Promise<Refusal<StageRefusal> | null> {
  const events = await standingEvents(tx, [box.id]);
  if (events.some((event) => event.kind === "opened")) return null;
  const fault = stageFault({ kind: "opened", occurredAt: opened.at }, events);
  if (fault) return fault;
  await insertBoxEvent(tx, {
    id: v7(),
    boxId: box.id,
    growerId: recorder.growerId,
    kind: "opened",
    occurredAt: opened.at,
    offsetMinutes: opened.offsetMinutes,
    detail: null,
    withdrawsId: null,
    viaHelper: recorder.onlyOutingId !== undefined,
  });
  return null;
}
