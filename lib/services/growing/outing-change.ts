import type { Actor } from "@/lib/auth/actor";
import { lockOwnBoxes, standingEvents } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import { standingGrades } from "@/lib/data/grades";
import { findOwnOuting, findTrialRules, updateDay } from "@/lib/data/outings";
import { wantPool } from "@/lib/data/pool-state";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { BoxShort, OutingDay } from "@/shared/schemas/outing";
import { hasStoodOut } from "./due";
import { earliestToday, momentOf } from "./moments";
import { type TellRefusal, tellEvent } from "./tell-event";

/** What may still change of the actor's set until a box of it is out: its day, and that a box is missing. */
type NotAnyMore = "NOT_FOUND" | "OUTING_ABANDONED" | "ALREADY_SET_OUT";

/** The actor's set with its boxes held, and what stands of them, while no box of it is out. */
async function setNotOut(tx: Transaction, actor: Actor, outingId: string) {
  const boxes = await lockOwnBoxes(tx, actor, outingId);
  const outing = await findOwnOuting(tx, actor.growerId, outingId);
  if (!outing) return refuse("NOT_FOUND");
  if (outing.status === "abandoned") return refuse("OUTING_ABANDONED");
  const boxIds = boxes.map(({ id }) => id);
  const events = await standingEvents(tx, boxIds);
  const graded = (await standingGrades(tx, actor.growerId, boxIds)).length > 0;
  if (hasStoodOut({ graded, events })) return refuse("ALREADY_SET_OUT");
  return done({ boxes, outing, events });
}

/** Moves the day of a set that isn't out yet. Its draw, if there is one, stays as it is. */
export async function moveDay(
  tx: Transaction,
  actor: Actor,
  { outingId, basedOn, day }: OutingDay,
): Promise<
  Result<
    { readonly outingId: string },
    NotAnyMore | "TRIAL_NOT_OPEN" | "DAY_IN_PAST" | "DAY_AFTER_TRIAL" | "CHANGED_MEANWHILE"
  >
> {
  const set = await setNotOut(tx, actor, outingId);
  if (!set.ok) return set;
  const trial = (await findTrialRules(tx, set.value.outing.trialId))!;
  if (trial.status !== "open") return refuse("TRIAL_NOT_OPEN");
  if (day < earliestToday(new Date())) return refuse("DAY_IN_PAST");
  if (day > trial.ends.endsOn) return refuse("DAY_AFTER_TRIAL");
  return (await updateDay(tx, outingId, basedOn, day)) ? done({ outingId }) : refuse("CHANGED_MEANWHILE");
}

/**
 * Leaves out the box with the highest number of a drawn set of which one box is missing. Which recipe is lost that
 * way was settled by the draw, not by whoever finds a box too few.
 */
export async function leaveOutBox(
  tx: Transaction,
  actor: Actor,
  { id, outingId, occurredAt }: BoxShort,
): Promise<
  Result<
    { readonly outingId: string; readonly trialId: string; readonly position: number },
    NotAnyMore | TellRefusal | "TOO_FEW_BOXES_LEFT"
  >
> {
  const set = await setNotOut(tx, actor, outingId);
  if (!set.ok) return set;
  const { boxes, events } = set.value;
  const ofBox = (boxId: string) => events.filter((event) => event.boxId === boxId);
  const left = boxes.filter((box) => !ofBox(box.id).some(({ kind }) => kind === "not-cooked"));
  if (left.length <= 2) return refuse("TOO_FEW_BOXES_LEFT");
  const last = left.at(-1)!;
  const standing = ofBox(last.id);
  const told = await tellEvent(tx, actor, last, standing, {
    id,
    kind: "not-cooked",
    detail: { kind: "not-cooked", reason: "box-short" },
    moment: momentOf(occurredAt),
    // It may have been cooked before the box was missed.
    withdrawsId: standing.find(({ kind }) => kind.startsWith("cooked-"))?.id ?? null,
  });
  if (!told.ok) return told;
  await wantPool(tx, last.trialId);
  return done({ outingId, trialId: last.trialId, position: last.position });
}
