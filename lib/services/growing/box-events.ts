import { v7 } from "uuid";
import type { Recorder } from "@/lib/auth/actor";
import { findBoxEvent, insertBoxEvent, keepNote, lockOwnBox } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import { answerByRecord } from "@/lib/data/corrections";
import { wantPool } from "@/lib/data/pool-state";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { BoxEventInput } from "@/shared/schemas/box-event";
import { momentFault, momentOf } from "./moments";

export interface RecordedEvent {
  readonly eventId: string;
  readonly trialId: string;
  /** Whether the trial had closed: the record is kept, but the closing results don't rest on it. */
  readonly late: boolean;
}

type EventRefusal =
  | "NOT_FOUND"
  | "NOT_DRAWN_YET"
  | "MOMENT_IN_FUTURE"
  | "MOMENT_BEFORE_OUTING"
  | "ALREADY_WITHDRAWN";

/** Keeps what was done to a box of the recorder's or happened to it. A helper takes back only what a helper told. */
export async function recordBoxEvent(
  tx: Transaction,
  recorder: Recorder,
  input: BoxEventInput,
): Promise<Result<RecordedEvent, EventRefusal>> {
  const box = await lockOwnBox(tx, recorder, input.boxId);
  if (!box) return refuse("NOT_FOUND");
  if (!box.committed) return refuse("NOT_DRAWN_YET");
  const viaHelper = recorder.onlyOutingId !== undefined;
  const moment = momentOf(input.occurredAt);
  const fault = momentFault(moment, box.day, new Date());
  if (fault) return fault;
  if (input.withdrawsId) {
    const earlier = await findBoxEvent(tx, box.id, input.withdrawsId);
    if (!earlier || (viaHelper && !earlier.viaHelper)) return refuse("NOT_FOUND");
    if (earlier.withdrawnBy) return refuse("ALREADY_WITHDRAWN");
  }
  const kept = await insertBoxEvent(tx, {
    id: input.id,
    boxId: box.id,
    growerId: recorder.growerId,
    kind: input.kind,
    occurredAt: moment.at,
    offsetMinutes: moment.offsetMinutes,
    withdrawsId: input.withdrawsId,
    viaHelper,
  });
  if (!kept) return refuse("NOT_FOUND");
  if (input.note) {
    const { accountId } = recorder;
    await keepNote(tx, { id: v7(), accountId, subjectId: input.id, text: input.note });
  }
  await answerByRecord(tx, box.id, new Date());
  await wantPool(tx, box.trialId);
  return done({ eventId: input.id, trialId: box.trialId, late: box.trialStatus === "closed" });
}
