import { type Refusal, refuse } from "@/lib/errors/result";
import { type BoxEventKind, STAGE_EVENTS } from "@/shared/vocabulary/box";

type Stage = (typeof STAGE_EVENTS)[number];

export type StageRefusal =
  | "STAGE_ON_RECORD"
  | "FETCHED_BEFORE_SET_OUT"
  | "OPENED_BEFORE_SET_OUT"
  | "OPENED_BEFORE_FETCHED";

interface Told {
  readonly kind: BoxEventKind;
  readonly occurredAt: Date;
}

/**
 * Why a stage of a box can't be told of this moment: it is on record, or its order with the other stages would be
 * impossible. Null for what is no stage. A stage that was never told is in nobody's way.
 * @param standing events of the box that stand, without the one this takes the place of
 */
export function stageFault(
  { kind, occurredAt }: Told,
  standing: readonly Told[],
): Refusal<StageRefusal> | null {
  if (!isStage(kind)) return null;
  const at = new Map<Stage, number>();
  for (const event of standing) if (isStage(event.kind)) at.set(event.kind, event.occurredAt.getTime());
  if (at.has(kind)) return refuse("STAGE_ON_RECORD");
  at.set(kind, occurredAt.getTime());
  const isBefore = (early: Stage, late: Stage) => (at.get(early) ?? Infinity) < (at.get(late) ?? -Infinity);
  if (isBefore("fetched", "set-out")) return refuse("FETCHED_BEFORE_SET_OUT");
  if (isBefore("opened", "set-out")) return refuse("OPENED_BEFORE_SET_OUT");
  if (isBefore("opened", "fetched")) return refuse("OPENED_BEFORE_FETCHED");
  return null;
}

/** Whether it tells that a box stands or stood outside. */
export function isStage(kind: BoxEventKind): kind is Stage {
  return (STAGE_EVENTS as readonly string[]).includes(kind);
}
