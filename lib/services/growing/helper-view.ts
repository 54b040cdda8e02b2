import type { Helper } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import type { TakeClass } from "@/shared/vocabulary/growth";
import type { BoxStep, Due } from "./due";
import { type OutingView, outingView } from "./outing-view";

export interface HelperBox {
  readonly id: string;
  readonly position: number;
  readonly code: string;
  readonly step: BoxStep;
  /** Growth by the record that stands; "recorded" where it isn't known. */
  readonly growth: TakeClass | "recorded" | null;
  readonly isOpened: boolean;
}

/** A set as its helper sees it: no place, no pin, no trial, no other set. */
export interface HelperView {
  readonly outingId: string;
  readonly code: string;
  readonly isGivenUp: boolean;
  readonly due: Due;
  readonly boxes: readonly HelperBox[];
  /** What to cook, until the first box is out: whoever records growth should not be reminded of its recipe. */
  readonly cooking: Pick<OutingView, "boxes" | "amounts"> | null;
}

/** The one set of boxes a helper link is about. */
export async function helperView(tx: Transaction, helper: Helper): Promise<HelperView | null> {
  const outing = await outingView(tx, helper, helper.onlyOutingId);
  if (!outing) return null;
  const { code, status, due, boxes, amounts } = outing;
  const has = (box: OutingView["boxes"][number], told: string) =>
    box.events.some(({ kind }) => kind === told);
  const isOut = boxes.some((box) => box.grade || has(box, "set-out") || has(box, "fetched"));
  return {
    outingId: outing.id,
    code,
    isGivenUp: status === "abandoned",
    due,
    boxes: boxes.map((box) => ({
      id: box.id,
      position: box.position,
      code: box.code,
      step: box.step,
      growth: box.grade && (box.grade.take ?? "recorded"),
      isOpened: has(box, "opened"),
    })),
    cooking: isOut || status === "abandoned" ? null : { boxes, amounts },
  };
}
