import { v7 } from "uuid";
import type { Recorder } from "@/lib/auth/actor";
import { keepNote, lockOwnBox, standingEvents } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import { wantPool } from "@/lib/data/pool-state";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { BoxEventInput } from "@/shared/schemas/box-event";
import { momentOf } from "./moments";
import { type TellRefusal, tellEvent } from "./tell-event";

export interface RecordedEvent {
  readonly eventId: string;
  readonly trialId: string;
  /** Whether the trial had closed: the record is kept, but the closing results don't rest on it. */
  readonly late: boolean;
}

/** Keeps what was done to a box of the recorder's or happened to it. */
export async function recordBoxEvent(
  tx: Transaction,
  recorder: Recorder,
  input: BoxEventInput,
): Promise<Result<RecordedEvent, TellRefusal>> {
  const box = await lockOwnBox(tx, recorder, input.boxId);
  if (!box) return refuse("NOT_FOUND");
  const { id, kind, detail = null, withdrawsId } = input;
  const event = { id, kind, detail, withdrawsId, moment: momentOf(input.occurredAt) };
  const told = await tellEvent(tx, recorder, box, await standingEvents(tx, [box.id]), event);
  if (!told.ok) return told;
  if (input.note) {
    await keepNote(tx, { id: v7(), accountId: recorder.accountId, subjectId: id, text: input.note });
  }
  await wantPool(tx, box.trialId);
  return done({ eventId: id, trialId: box.trialId, late: box.trialStatus === "closed" });
}
