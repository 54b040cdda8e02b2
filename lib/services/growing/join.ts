import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { hasTriesLeft, withinLimits } from "@/lib/auth/limits";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import {
  addAgreement,
  findEnrolmentRecord,
  findTrialByJoinCode,
  findTrialToJoin,
  hasAgreed,
  lockOpenTrial,
  type RegionSeats,
  resumeEnrolment,
  type TrialToJoin,
} from "@/lib/data/enrolments";
import { sitesOf } from "@/lib/data/sites";
import { findWaiting, joinLine, leaveLine, type WaitingStanding } from "@/lib/data/waiting";
import { done, type Refusal, type Result, refuse } from "@/lib/errors/result";
import { takesNoMoreDraws } from "@/lib/services/trial-ends";
import type { EnrolmentInput } from "@/shared/schemas/enrolment";
import { fillFromLine, giveSeat } from "./seats";

export type Joined =
  | {
      readonly standing: "seat";
      readonly enrolmentId: string;
      readonly trialId: string;
      readonly regionId: string;
      /** Whether the household already had its seat, so that this grower only agreed for themselves. */
      readonly householdHadSeat: boolean;
    }
  | {
      readonly standing: "waiting";
      readonly trialId: string;
      readonly regionId: string;
      /** 1: next to get a seat. */
      readonly place: number;
    };

type JoinRefusal =
  | "TOO_MANY_REQUESTS"
  | "NOT_FOUND"
  | "TRIAL_NOT_OPEN"
  | "TRIAL_ENDED"
  | "REGION_FULL"
  | "ALREADY_WAITING"
  | "ALREADY_JOINED";

/**
 * Gives the actor's household a seat in a region of a trial, or adds a second adult of it to the seat it has. Where no
 * seat is free, or others wait for one, the household goes to the end of the region's line if it asked to. Whoever
 * left after a draw gets the seat back that the draw kept.
 */
export async function joinTrial(
  tx: Transaction,
  actor: Actor,
  input: EnrolmentInput,
): Promise<Result<Joined, JoinRefusal>> {
  if (!(await hasTriesLeft("wrongCode", actor.accountId))) return refuse("TOO_MANY_REQUESTS");
  const found = await findTrialByJoinCode(tx, input.joinCode);
  if (!found || found.status === "draft") return wrongCode(actor.accountId);
  const { id: trialId } = found;
  const { regionId } = input;
  if (await takesNoMoreDraws(tx, trialId, found.ends, new Date())) {
    return refuse(found.status === "open" ? "TRIAL_ENDED" : "TRIAL_NOT_OPEN");
  }
  if (!found.regions.some(({ id }) => id === regionId)) return refuse("NOT_FOUND");
  if (!(await lockOpenTrial(tx, trialId))) return refuse("TRIAL_NOT_OPEN");

  const record = await findEnrolmentRecord(tx, trialId, actor.householdId);
  if (record && !record.leftAt) return agreeToo(tx, actor, trialId, record, input);
  if (record && record.draws > 0) {
    await resumeEnrolment(tx, record.id, record.regionId);
    await leaveLine(tx, trialId, actor.householdId);
    await agree(tx, actor, trialId, input);
    return done(seated(trialId, { enrolmentId: record.id, regionId: record.regionId }));
  }
  if (!(await hasSeatForNewcomer(tx, trialId, regionId))) return waitInstead(tx, actor, trialId, input);
  await leaveLine(tx, trialId, actor.householdId);
  const request = { ...input, householdId: actor.householdId, growerId: actor.growerId };
  if (!(await giveSeat(tx, trialId, request))) return refuse("NOT_FOUND"); // the id sent is another's
  return done(seated(trialId, { enrolmentId: record?.id ?? input.id, regionId }));
}

function seated(
  trialId: string,
  { enrolmentId, regionId }: { enrolmentId: string; regionId: string },
  householdHadSeat = false,
): Joined {
  return { standing: "seat", enrolmentId, trialId, regionId, householdHadSeat };
}

async function agreeToo(
  tx: Transaction,
  actor: Actor,
  trialId: string,
  { id: enrolmentId, regionId }: { id: string; regionId: string },
  input: EnrolmentInput,
): Promise<Result<Joined, "ALREADY_JOINED">> {
  if (!(await agree(tx, actor, trialId, input))) return refuse("ALREADY_JOINED");
  return done(seated(trialId, { enrolmentId, regionId }, true));
}

/** False when the actor had agreed to these words before. */
async function agree(
  tx: Transaction,
  { growerId }: Actor,
  trialId: string,
  { agreementVersion: version }: EnrolmentInput,
): Promise<boolean> {
  await insertAuditEntry(tx, { growerId, action: "trial.joined", subjectId: trialId });
  return addAgreement(tx, { id: v7(), trialId, growerId, version });
}

/** Whether a seat is free and nobody waits for it. Those who wait get theirs first. */
async function hasSeatForNewcomer(tx: Transaction, trialId: string, regionId: string): Promise<boolean> {
  const trial = (await findTrialToJoin(tx, trialId))!;
  const { capacity, seatsTaken, waiting } = trial.regions.find(({ id }) => id === regionId)!;
  if (seatsTaken >= capacity) return false;
  return waiting === 0 || seatsTaken + (await fillFromLine(tx, trial, regionId)) < capacity;
}

async function waitInstead(
  tx: Transaction,
  actor: Actor,
  trialId: string,
  { id, regionId, agreementVersion, mayWait }: EnrolmentInput,
): Promise<Result<Joined, "REGION_FULL" | "ALREADY_WAITING">> {
  if (await findWaiting(tx, trialId, actor.householdId)) return refuse("ALREADY_WAITING");
  if (!mayWait) return refuse("REGION_FULL");
  const { householdId, growerId } = actor;
  await joinLine(tx, { id, trialId, householdId, growerId, regionId, agreementVersion });
  await insertAuditEntry(tx, { growerId, action: "trial.waiting", subjectId: trialId });
  const { place } = (await findWaiting(tx, trialId, householdId))!;
  return done({ standing: "waiting", trialId, regionId, place });
}

export interface JoinView {
  readonly trial: TrialToJoin;
  /** The region the household has its seat in, once it has one. */
  readonly householdRegionId: string | null;
  readonly hasAgreed: boolean;
  /** Where the household waits for a seat. */
  readonly waiting: WaitingStanding | null;
  /** Whether the household has left; `keptRegionId`: the seat its draws have kept. */
  readonly left: { readonly keptRegionId: string | null } | null;
  /** Sets of the household that chance has picked recipes for: leaving keeps its seat then. */
  readonly draws: number;
  /** Whether the actor has any place to set out boxes at. */
  readonly hasPlace: boolean;
}

export type { RegionSeats };

/**
 * What a join code leads to; nothing for a code of no trial, or of a draft. `actor` may be nobody yet.
 * @param from the network address asked from, where guessing is stopped
 */
export async function joinView(
  tx: Transaction,
  actor: Actor | null,
  joinCode: string,
  from: string,
): Promise<Result<JoinView, "TOO_MANY_REQUESTS" | "NOT_FOUND">> {
  if (!(await hasTriesLeft("wrongCode", from))) return refuse("TOO_MANY_REQUESTS");
  const trial = await findTrialByJoinCode(tx, joinCode);
  if (!trial || trial.status === "draft") return wrongCode(from);
  if (!actor) {
    const none = { householdRegionId: null, hasAgreed: false, waiting: null, left: null, draws: 0 };
    return done({ trial, ...none, hasPlace: false });
  }
  const record = await findEnrolmentRecord(tx, trial.id, actor.householdId);
  const draws = record?.draws ?? 0;
  return done({
    trial,
    householdRegionId: record && !record.leftAt ? record.regionId : null,
    hasAgreed: await hasAgreed(tx, trial.id, actor.growerId),
    waiting: await findWaiting(tx, trial.id, actor.householdId),
    left: record?.leftAt ? { keptRegionId: draws > 0 ? record.regionId : null } : null,
    draws,
    hasPlace: (await sitesOf(tx, actor.growerId)).length > 0,
  });
}

/** Counts a code that leads nowhere for whoever tried it. */
async function wrongCode(who: string): Promise<Refusal<"NOT_FOUND">> {
  await withinLimits({ wrongCode: who });
  return refuse("NOT_FOUND");
}
