import { randomBytes } from "node:crypto";
import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { keepTallies } from "@/lib/data/draw-tally";
import { findDraw, insertDraw, type LockedTrial, lockTrialForDraw } from "@/lib/data/draws";
import { commitOuting, drawnNotSetOut, findOwnOuting, type OwnOuting } from "@/lib/data/outings";
import { standingPause } from "@/lib/data/pauses";
import { bandOf } from "@/lib/engine/climate/grouping";
import { designOf } from "@/lib/engine/design/draw";
import { appendDraw, receiptOf, timeHashOf } from "@/lib/engine/design/ledger";
import { ledgerOutingId } from "@/lib/engine/design/ledger-outing-id";
import { addToTally } from "@/lib/engine/design/tally";
import { done, type Result, refuse } from "@/lib/errors/result";
import { openSecret } from "@/lib/services/seal";
import { takesNoMoreDraws } from "@/lib/services/trial-ends";
import { type DrawInputs, type DrawReceipt, drawInputsSchema, type LedgerEntry } from "@/shared/schemas/draw";
import type { DrawRequest } from "@/shared/schemas/draw-request";
import { MOST_SETS_NOT_SET_OUT } from "@/shared/vocabulary/box";
import type { KoppenClass } from "@/shared/vocabulary/climate";
import { type DrawBasis, drawBasis } from "./draw-basis";

type DrawRefusalReason =
  | "NOT_FOUND"
  | "TRIAL_NOT_OPEN"
  | "TRIAL_ENDED"
  | "TRIAL_PAUSED"
  | "ALREADY_DRAWN"
  | "OUTING_ABANDONED"
  | "CHANGED_MEANWHILE"
  | "TOO_MANY_NOT_SET_OUT"
  | "CLASS_NOT_IN_TRIAL"
  | "BAD_BOX_COUNT"
  | "NO_ARM_POSSIBLE"
  | "ONE_ARM_ONLY";

/**
 * Commits an outing and draws the recipes of its boxes: once, for good, one draw of the trial after the other.
 * Everything the draw rests on is read after the trial's row is locked.
 */
export async function drawOuting(
  tx: Transaction,
  actor: Actor,
  input: DrawRequest,
): Promise<Result<DrawReceipt, DrawRefusalReason>> {
  const trial = await lockTrialForDraw(tx, actor.growerId, input.outingId);
  const outing = await findOwnOuting(tx, actor.growerId, input.outingId);
  if (!trial || !outing) return refuse("NOT_FOUND");
  if (outing.committedAt) return refuse("ALREADY_DRAWN");
  if (outing.status === "abandoned") return refuse("OUTING_ABANDONED");
  if (trial.status !== "open") return refuse("TRIAL_NOT_OPEN");
  const waiting = await drawnNotSetOut(tx, outing.enrolmentId);
  if (waiting >= MOST_SETS_NOT_SET_OUT) return refuse("TOO_MANY_NOT_SET_OUT");
  if (await standingPause(tx, trial.trialId)) return refuse("TRIAL_PAUSED");
  const koppenClass = outing.site.koppenClass as KoppenClass;
  const group = bandOf(koppenClass, trial.grouping);
  if (!group.ok) return refuse("CLASS_NOT_IN_TRIAL");

  const { trialId } = trial;
  const drawnAt = new Date();
  const basis = await drawBasis(tx, trial, outing, group.band);
  const isOver = await takesNoMoreDraws(tx, trialId, trial.ends, drawnAt, basis.drawnBoxesAtMost);
  if (isOver) return refuse("TRIAL_ENDED");
  const secretHex = openSecret(trial.ciphertext);
  const timeSalt = randomBytes(16).toString("hex");
  const inputs = inputsOf(trial, outing, basis, {
    climateGroup: group.band,
    outingId: ledgerOutingId(secretHex, outing.id),
    timeHash: timeHashOf(timeSalt, drawnAt.toISOString()),
  });
  const previous = trial.drawCount === 0 ? null : await findDraw(tx, trialId, trial.drawCount);
  const drawn = appendDraw(trial, designOf(trial.plan), previous, secretHex, inputs, basis.history);
  if (!drawn.ok) return refuse(drawn.reason);

  const { entry } = drawn;
  const allocations = allocationsOf(trial, outing, entry);
  const { id, version } = outing;
  // First the set, so that it can't be given up or planned anew while its draw is kept.
  const committed = { id, version, band: group.band, koppenClass, committedAt: drawnAt };
  if (!(await commitOuting(tx, committed))) {
    const now = await findOwnOuting(tx, actor.growerId, id);
    return refuse(now?.status === "abandoned" ? "OUTING_ABANDONED" : "CHANGED_MEANWHILE");
  }
  await insertDraw(tx, { id: input.id, trialId, outingId: id, entry, drawnAt, timeSalt, allocations });
  if (inputs.returns === undefined) await countDraw(tx, trial, basis, entry);
  await insertAuditEntry(tx, {
    growerId: actor.growerId,
    action: "outing.drawn",
    subjectId: outing.id,
    detail: { number: entry.number, hash: entry.hash },
  });
  return done(receiptOf(trial, entry));
}

function inputsOf(
  trial: LockedTrial,
  outing: OwnOuting,
  { drawnBefore, returns }: DrawBasis,
  draw: { readonly climateGroup: string; readonly outingId: string; readonly timeHash: string },
): DrawInputs {
  return drawInputsSchema.parse({
    ...draw,
    household: outing.enrolment.pseudonym,
    region: outing.region.code,
    boxes: outing.boxes.length,
    // What else is in the pantry decides nothing and is nobody's business.
    grainsAtHand: outing.grainsAtHand.filter((grain) => trial.arms.some((arm) => arm.grain === grain)),
    arms: trial.arms.map(({ code, grain }, index) => ({ code, grain, drawnBefore: drawnBefore[index] })),
    returns,
  });
}

function allocationsOf(
  trial: LockedTrial,
  outing: OwnOuting,
  entry: LedgerEntry,
): { boxId: string; armId: string }[] {
  const armIds = new Map(trial.arms.map((arm) => [arm.code, arm.id]));
  const boxIds = new Map(outing.boxes.map((box) => [box.position, box.id]));
  return entry.result.map(({ position, arm }) => ({
    boxId: boxIds.get(position)!,
    armId: armIds.get(arm)!,
  }));
}

/** Adds a draw that is no return to the counts the next ones rest on. */
async function countDraw(
  tx: Transaction,
  trial: LockedTrial,
  { history }: DrawBasis,
  { inputs, result }: LedgerEntry,
): Promise<void> {
  const indexes = new Map(trial.arms.map(({ code }, index) => [code, index]));
  const tally = addToTally(
    history.region,
    trial.arms.length,
    result.map(({ arm }) => indexes.get(arm)!),
  );
  await keepTallies(tx, trial.trialId, [{ band: inputs.climateGroup, region: inputs.region, ...tally }]);
}
