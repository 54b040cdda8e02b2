import type { Helper } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import type { TakeClass } from "@/shared/vocabulary/growth";
import { type BoxStep, type Due, hasStoodOut } from "./due";
import { type BoxView, type OutingView, outingView } from "./outing-view";

export interface HelperBox {
  readonly id: string;
  readonly position: number;
  readonly code: string;
  readonly step: BoxStep;
  /** Growth by a helper's record that stands; "recorded" where it isn't known, and where the grower recorded it. */
  readonly growth: TakeClass | "recorded" | null;
  readonly isOpened: boolean;
  /** What helpers told of it, to be taken back; never what its grower did. */
  readonly told: readonly Pick<
    BoxView["events"][number],
    "id" | "kind" | "detail" | "occurredAt" | "offsetMinutes"
  >[];
  /** Whether a helper made the record that stands. */
  readonly isRecordedByHelper: boolean;
}

/** A set as its helper sees it: no place, no pin, no trial, no other set. */
export interface HelperView {
  readonly outingId: string;
  readonly code: string;
  readonly isGivenUp: boolean;
  readonly pause: OutingView["pause"];
  /** The day it is to be set out, `YYYY-MM-DD`. */
  readonly day: string;
  readonly due: Due;
  readonly fetchDay: OutingView["fetchDay"];
  readonly boxes: readonly HelperBox[];
  /** What to cook, until the first box is out: whoever records growth should not be reminded of its recipe. */
  readonly cooking: Pick<OutingView, "boxes" | "amounts"> | null;
}

/** The one set of boxes a helper link is about. */
export async function helperView(tx: Transaction, helper: Helper): Promise<HelperView | null> {
  const outing = await outingView(tx, helper, helper.onlyOutingId);
  if (!outing) return null;
  const { code, status, pause, day, due, fetchDay, boxes, amounts } = outing;
  const has = (box: OutingView["boxes"][number], told: string) =>
    box.events.some(({ kind }) => kind === told);
  const isOut = boxes.some((box) => hasStoodOut({ ...box, graded: box.grade !== null }));
  return {
    outingId: outing.id,
    code,
    isGivenUp: status === "abandoned",
    pause,
    day,
    due,
    fetchDay,
    boxes: boxes.map((box) => ({
      id: box.id,
      position: box.position,
      code: box.code,
      step: box.step,
      growth: box.grade && ((box.grade.viaHelper ? box.grade.take : null) ?? "recorded"),
      isOpened: has(box, "opened"),
      told: toldByHelpers(box),
      isRecordedByHelper: box.grade?.viaHelper ?? false,
    })),
    cooking: isOut || status === "abandoned" ? null : { boxes, amounts },
  };
}

function toldByHelpers({ events }: BoxView): HelperBox["told"] {
  return events
    .filter(({ viaHelper }) => viaHelper)
    .map(({ id, kind, detail, occurredAt, offsetMinutes }) => ({
      id,
      kind,
      detail,
      occurredAt,
      offsetMinutes,
    }));
}
