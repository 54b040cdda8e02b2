import { v7 } from "uuid";
import type { Actor, Recorder } from "@/lib/auth/actor";
import { keepNote, lockOwnBoxes, standingEvents } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import { findTrialRules, keepStanding } from "@/lib/data/outings";
import { erasePin, keepPin, type PinRow } from "@/lib/data/pins";
import { wantPool } from "@/lib/data/pool-state";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { PinInput, PinRequest, SetReport } from "@/shared/schemas/box-event";
import { boxLimitsOf } from "./box-limits";
import { momentOf } from "./moments";
import { type TellRefusal, tellEvent } from "./tell-event";

export interface ReportedSet {
  readonly outingId: string;
  readonly trialId: string;
  /** Whether the trial had closed: the report is kept, but the closing results don't rest on it. */
  readonly late: boolean;
}

/**
 * Keeps what was done at once to boxes of the recorder's set or happened to them; one refusal undoes all of it. A pin
 * is its grower's alone, so a helper sends none.
 */
export async function recordSetReport(
  tx: Transaction,
  recorder: Recorder,
  input: SetReport,
): Promise<Result<ReportedSet, TellRefusal | "SPACING_BELOW_LIMIT">> {
  const { outingId, standing, pin, note } = input;
  if (pin && recorder.onlyOutingId !== undefined) return refuse("NOT_FOUND");
  const boxes = await lockOwnBoxes(tx, recorder, outingId);
  const [first] = boxes;
  if (!first) return refuse("NOT_FOUND");
  const moment = momentOf(input.occurredAt);
  const known = await standingEvents(
    tx,
    boxes.map(({ id }) => id),
  );
  for (const { boxId, ...event } of input.told) {
    const box = boxes.find(({ id }) => id === boxId);
    if (!box) return refuse("NOT_FOUND");
    const ofBox = known.filter((earlier) => earlier.boxId === boxId);
    const told = await tellEvent(tx, recorder, box, ofBox, { ...event, moment, withdrawsId: null });
    if (!told.ok) return told;
    known.push(told.value);
  }
  if (standing) {
    const limits = boxLimitsOf((await findTrialRules(tx, first.trialId))!.plan);
    const least = limits?.minSpacingCm ?? 0;
    if (standing.spacingCm !== null && standing.spacingCm < least) return refuse("SPACING_BELOW_LIMIT");
    await keepStanding(tx, outingId, standing);
  }
  const { accountId } = recorder;
  if (pin) await keepPin(tx, { outingId, accountId }, pinRowOf(pin));
  if (note) await keepNote(tx, { id: v7(), accountId, subjectId: input.id, text: note });
  await wantPool(tx, first.trialId);
  return done({ outingId, trialId: first.trialId, late: first.trialStatus === "closed" });
}

/** Keeps the pin of a set of the actor's that stands out, in place of an earlier one, or erases it. */
export async function changePin(
  tx: Transaction,
  actor: Actor,
  { outingId, pin }: PinRequest,
): Promise<Result<{ readonly outingId: string }, "NOT_FOUND" | "NOT_SET_OUT_YET">> {
  const boxes = await lockOwnBoxes(tx, actor, outingId);
  if (boxes.length === 0) return refuse("NOT_FOUND");
  if (!pin) {
    await erasePin(tx, outingId);
    return done({ outingId });
  }
  const events = await standingEvents(
    tx,
    boxes.map(({ id }) => id),
  );
  if (!events.some(({ kind }) => kind === "set-out")) return refuse("NOT_SET_OUT_YET");
  await keepPin(tx, { outingId, accountId: actor.accountId }, pinRowOf(pin));
  return done({ outingId });
}

function pinRowOf({ takenAt, ...pin }: PinInput): PinRow {
  return { ...pin, takenAt: momentOf(takenAt).at };
}
