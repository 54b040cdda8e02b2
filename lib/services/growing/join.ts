import { randomInt } from "node:crypto";
import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { hasTriesLeft, withinLimits } from "@/lib/auth/limits";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import {
  addAgreement,
  findEnrolment,
  findTrialByJoinCode,
  hasAgreed,
  insertEnrolment,
  type TrialToJoin,
  takeSeat,
} from "@/lib/data/enrolments";
import { OUTING_CODE_ALPHABET } from "@/lib/engine/design/outing-code";
import { done, type Refusal, type Result, refuse } from "@/lib/errors/result";
import { takesNoMoreDraws } from "@/lib/services/trial-ends";
import type { EnrolmentInput } from "@/shared/schemas/enrolment";

/** One of 24^6 (about 190 million): in a trial of some hundreds, two meet next to never. */
const PSEUDONYM_LENGTH = 6;
const PSEUDONYM_TRIES = 5;

export interface Joined {
  readonly enrolmentId: string;
  readonly trialId: string;
  readonly regionId: string;
  /** Whether the household already had its seat, so that this grower only agreed for themselves. */
  readonly householdHadSeat: boolean;
}

type JoinRefusal =
  | "TOO_MANY_REQUESTS"
  | "NOT_FOUND"
  | "TRIAL_NOT_OPEN"
  | "TRIAL_ENDED"
  | "REGION_FULL"
  | "ALREADY_JOINED";

/** Gives the actor's household a seat in a region of a trial, or adds a second adult of it to the seat it has. */
export async function joinTrial(
  tx: Transaction,
  actor: Actor,
  input: EnrolmentInput,
): Promise<Result<Joined, JoinRefusal>> {
  if (!(await hasTriesLeft("wrongCode", actor.accountId))) return refuse("TOO_MANY_REQUESTS");
  const trial = await findTrialByJoinCode(tx, input.joinCode);
  if (!trial || trial.status === "draft") return wrongCode(actor.accountId);
  if (trial.status !== "open") return refuse("TRIAL_NOT_OPEN");
  if (await takesNoMoreDraws(tx, trial.id, trial.ends, new Date())) return refuse("TRIAL_ENDED");
  if (!trial.regions.some((region) => region.id === input.regionId)) return refuse("NOT_FOUND");

  const hasNewSeat = await enrol(tx, actor, trial.id, input);
  const enrolment = await findEnrolment(tx, trial.id, actor.householdId);
  if (!enrolment) return refuse("NOT_FOUND"); // the id sent is another's
  if (hasNewSeat && !(await takeSeat(tx, trial.id, input.regionId))) return refuse("REGION_FULL");

  const agreed = await addAgreement(tx, {
    id: v7(),
    trialId: trial.id,
    growerId: actor.growerId,
    version: input.agreementVersion,
  });
  if (!agreed && !hasNewSeat) return refuse("ALREADY_JOINED");
  await insertAuditEntry(tx, { growerId: actor.growerId, action: "trial.joined", subjectId: trial.id });
  return done({
    enrolmentId: enrolment.id,
    trialId: trial.id,
    regionId: enrolment.regionId,
    householdHadSeat: !hasNewSeat,
  });
}

/** Keeps the enrolment under a fresh pseudonym; false when the household (or the id) has one already. */
async function enrol(
  tx: Transaction,
  actor: Actor,
  trialId: string,
  input: EnrolmentInput,
): Promise<boolean> {
  const { id, regionId } = input;
  for (let tries = 0; tries < PSEUDONYM_TRIES; tries++) {
    const enrolment = { id, trialId, householdId: actor.householdId, regionId, pseudonym: newPseudonym() };
    if (await insertEnrolment(tx, enrolment)) return true;
    if (await findEnrolment(tx, trialId, actor.householdId)) return false;
  }
  return false;
}

function newPseudonym(): string {
  return Array.from(
    { length: PSEUDONYM_LENGTH },
    () => OUTING_CODE_ALPHABET[randomInt(OUTING_CODE_ALPHABET.length)],
  ).join("");
}

export interface JoinView {
  readonly trial: TrialToJoin;
  /** The region the household has its seat in, once it has one. */
  readonly householdRegionId: string | null;
  readonly hasAgreed: boolean;
}

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
  if (!actor) return done({ trial, householdRegionId: null, hasAgreed: false });
  const enrolment = await findEnrolment(tx, trial.id, actor.householdId);
  return done({
    trial,
    householdRegionId: enrolment?.regionId ?? null,
    hasAgreed: await hasAgreed(tx, trial.id, actor.growerId),
  });
}

/** Counts a code that leads nowhere for whoever tried it. */
async function wrongCode(who: string): Promise<Refusal<"NOT_FOUND">> {
  await withinLimits({ wrongCode: who });
  return refuse("NOT_FOUND");
}
