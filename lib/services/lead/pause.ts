import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { findLeadTrial, type LeadTrialRow, lockTrial } from "@/lib/data/lead";
import { endPause, insertPause, pausesOf, type TrialPause } from "@/lib/data/pauses";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { PauseReason } from "@/shared/vocabulary/desk";
import { type AuthorizedTrialId, authoriseLead } from "./authorise";
import { ownOpened } from "./desk";

/** When the actor's trial stood still, first to last. */
export async function trialPauses(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<{ readonly trial: LeadTrialRow; readonly pauses: readonly TrialPause[] }, "NOT_FOUND">> {
  const trial = await ownOpened(tx, actor, trialId);
  if (!trial.ok) return trial;
  return done({ trial: trial.value, pauses: await pausesOf(tx, trialId) });
}

/** Lets the actor's open trial stand still: no draw is made, what is out already can still be recorded. */
export async function pauseTrial(
  tx: Transaction,
  actor: Actor,
  { trialId, reason }: { readonly trialId: string; readonly reason: PauseReason },
  now: Date,
): Promise<Result<null, "NOT_FOUND" | "TRIAL_NOT_OPEN" | "ALREADY_PAUSED">> {
  const held = await ownOpenTrial(tx, actor, trialId);
  if (!held.ok) return held;
  const pause = { id: v7(), trialId: held.value, growerId: actor.growerId, reason, pausedAt: now };
  if (!(await insertPause(tx, pause))) return refuse("ALREADY_PAUSED");
  await audit(tx, actor, "trial.paused", held.value, { reason });
  return done(null);
}

/** Lets it go on. */
export async function resumeTrial(
  tx: Transaction,
  actor: Actor,
  trialId: string,
  now: Date,
): Promise<Result<null, "NOT_FOUND" | "TRIAL_NOT_OPEN" | "NOT_PAUSED">> {
  const held = await ownOpenTrial(tx, actor, trialId);
  if (!held.ok) return held;
  if (!(await endPause(tx, held.value, now))) return refuse("NOT_PAUSED");
  await audit(tx, actor, "trial.resumed", held.value);
  return done(null);
}

/** The actor's own open trial, its row held: a draw that has begun ends before a pause begins. */
async function ownOpenTrial(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<AuthorizedTrialId, "NOT_FOUND" | "TRIAL_NOT_OPEN">> {
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  await lockTrial(tx, authorised.value);
  const { status } = await findLeadTrial(tx, authorised.value);
  return status === "open" ? authorised : refuse("TRIAL_NOT_OPEN");
}

function audit(tx: Transaction, actor: Actor, action: string, subjectId: string, detail = {}): Promise<void> {
  return insertAuditEntry(tx, { growerId: actor.growerId, action, subjectId, detail });
}
