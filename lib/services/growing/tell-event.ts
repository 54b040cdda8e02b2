import { v7 } from "uuid";
import type { Recorder } from "@/lib/auth/actor";
import { type BoxEventRow, findBoxEvent, insertBoxEvent, type OwnBox } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import { answerByRecord } from "@/lib/data/corrections";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { BoxEventDetail, KeptEventDetail } from "@/shared/schemas/box-event";
import type { BoxEventKind } from "@/shared/vocabulary/box";
import { type Moment, momentFault } from "./moments";
import { type StageRefusal, stageFault } from "./stage-order";

export interface ToldEvent {
  readonly id: string;
  readonly kind: BoxEventKind;
  readonly moment: Moment;
  readonly detail: BoxEventDetail | null;
  readonly withdrawsId: string | null;
}

export type TellRefusal =
  | "NOT_FOUND"
  | "NOT_DRAWN_YET"
  | "MOMENT_IN_FUTURE"
  | "MOMENT_BEFORE_OUTING"
  | "ALREADY_WITHDRAWN"
  | StageRefusal;

/**
 * Keeps one event of a box that is held by `lockOwnBox` or `lockOwnBoxes`, with what follows from it: a box that was
 * not cooked, or can't be told apart any more, has no growth to record. Taking an event back takes back what followed.
 * A helper takes back only what a helper told.
 * @param standing events of the box that stand
 */
export async function tellEvent(
  tx: Transaction,
  recorder: Recorder,
  box: OwnBox,
  standing: readonly BoxEventRow[],
  event: ToldEvent,
): Promise<Result<BoxEventRow, TellRefusal>> {
  if (!box.committedAt) return refuse("NOT_DRAWN_YET");
  const { kind, moment, withdrawsId } = event;
  const viaHelper = recorder.onlyOutingId !== undefined;
  if (withdrawsId) {
    const earlier = await findBoxEvent(tx, box.id, withdrawsId);
    if (!earlier || (viaHelper && !earlier.viaHelper)) return refuse("NOT_FOUND");
    if (earlier.withdrawnBy) return refuse("ALREADY_WITHDRAWN");
  }
  const others = standing.filter(({ id }) => id !== withdrawsId);
  const now = new Date();
  const fault = momentFault(moment, box, now) ?? stageFault({ kind, occurredAt: moment.at }, others);
  if (fault) return fault;

  const rowOf = (told: Pick<BoxEventRow, "id" | "kind" | "detail" | "withdrawsId">): BoxEventRow => ({
    ...told,
    boxId: box.id,
    growerId: recorder.growerId,
    occurredAt: moment.at,
    offsetMinutes: moment.offsetMinutes,
    viaHelper,
  });
  const row = rowOf({ id: event.id, kind, detail: event.detail, withdrawsId });
  if (!(await insertBoxEvent(tx, row))) return refuse("NOT_FOUND");
  for (const { id, detail } of withdrawsId ? others : []) {
    if (detail?.becauseOf !== withdrawsId) continue;
    await insertBoxEvent(tx, rowOf({ id: v7(), kind: "withdrawal", detail: null, withdrawsId: id }));
  }
  const follows = consequenceOf(event);
  if (follows) {
    await insertBoxEvent(tx, rowOf({ id: v7(), kind: follows.kind, detail: follows, withdrawsId: null }));
  }
  await answerByRecord(tx, box.id, now);
  return done(row);
}

function consequenceOf({ id, kind, detail }: ToldEvent): KeptEventDetail | null {
  if (kind === "not-cooked") return { kind: "growth-not-recordable", reason: "not-cooked", becauseOf: id };
  if (detail?.kind !== "label-gone" || detail.known) return null;
  return { kind: "growth-not-recordable", reason: "unidentified", becauseOf: id };
}
