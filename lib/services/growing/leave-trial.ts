import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import {
  endEnrolment,
  findEnrolmentRecord,
  findTrialToJoin,
  freeSeat,
  lockOpenTrial,
} from "@/lib/data/enrolments";
import { leaveLine } from "@/lib/data/waiting";
import { done, type Result, refuse } from "@/lib/errors/result";
import { takesNoMoreDraws } from "@/lib/services/trial-ends";
import { fillFromLine } from "./seats";

/**
 * Takes the actor's household out of an open trial. Sets without a draw are given up. Before any draw its seat goes to
 * whoever waits longest; after one it stays taken, as its boxes stay in the data, and the household may come back to it.
 */
export async function leaveTrial(
  tx: Transaction,
  actor: Actor,
  trialId: string,
  now = new Date(),
): Promise<Result<{ readonly seatFreed: boolean }, "NOT_FOUND" | "TRIAL_NOT_OPEN">> {
  const isOpen = await lockOpenTrial(tx, trialId);
  const record = await findEnrolmentRecord(tx, trialId, actor.householdId);
  if (!record || record.leftAt) return refuse("NOT_FOUND");
  if (!isOpen) return refuse("TRIAL_NOT_OPEN");
  await endEnrolment(tx, record.id, now);
  const { growerId } = actor;
  await insertAuditEntry(tx, { growerId, action: "trial.left", subjectId: trialId });
  if (record.draws > 0) return done({ seatFreed: false });
  await freeSeat(tx, trialId, record.regionId);
  const trial = (await findTrialToJoin(tx, trialId))!;
  if (!(await takesNoMoreDraws(tx, trialId, trial.ends, now))) await fillFromLine(tx, trial, record.regionId);
  return done({ seatFreed: true });
}

/** Takes the actor's household out of a trial's line for a seat. */
export async function stepBack(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<null, "NOT_FOUND" | "TRIAL_NOT_OPEN">> {
  if (!(await lockOpenTrial(tx, trialId))) return refuse("TRIAL_NOT_OPEN");
  if (!(await leaveLine(tx, trialId, actor.householdId))) return refuse("NOT_FOUND");
  await insertAuditEntry(tx, { growerId: actor.growerId, action: "trial.stepped-back", subjectId: trialId });
  return done(null);
}
