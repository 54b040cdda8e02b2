import { randomInt } from "node:crypto";
import { v7 } from "uuid";
import { accountOfGrower } from "@/lib/data/accounts";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import {
  addAgreement,
  findEnrolmentRecord,
  insertEnrolment,
  resumeEnrolment,
  type TrialToJoin,
  takeSeat,
} from "@/lib/data/enrolments";
import { firstInLine, leaveLine } from "@/lib/data/waiting";
import { OUTING_CODE_ALPHABET } from "@/lib/engine/design/outing-code";
import { enqueueMail } from "@/lib/mail/enqueue";

/** One of 24^6 (about 190 million): in a trial of some hundreds, two meet next to never. */
const PSEUDONYM_LENGTH = 6;
const PSEUDONYM_TRIES = 5;

/** Whom a seat is for, in which region, and what they agreed to. */
export interface SeatRequest {
  /** Of the enrolment, where the household never had one. */
  readonly id: string;
  readonly householdId: string;
  readonly growerId: string;
  readonly regionId: string;
  readonly agreementVersion: string;
}

/**
 * Takes a seat for a household that has none: a new enrolment, or the one it left before any draw. False when the
 * region has no seat left or the id is another's; then the caller must roll back. The trial's row must be held.
 */
export async function giveSeat(tx: Transaction, trialId: string, request: SeatRequest): Promise<boolean> {
  const { householdId, growerId, regionId, agreementVersion } = request;
  const earlier = await findEnrolmentRecord(tx, trialId, householdId);
  if (earlier) await resumeEnrolment(tx, earlier.id, regionId);
  else if (!(await enrol(tx, trialId, request))) return false;
  if (!(await takeSeat(tx, trialId, regionId))) return false;
  await addAgreement(tx, { id: v7(), trialId, growerId, version: agreementVersion });
  await insertAuditEntry(tx, { growerId, action: "trial.joined", subjectId: trialId });
  return true;
}

/** Keeps the enrolment under a fresh pseudonym; false when its id is taken. */
async function enrol(
  tx: Transaction,
  trialId: string,
  { id, householdId, regionId }: SeatRequest,
): Promise<boolean> {
  for (let tries = 0; tries < PSEUDONYM_TRIES; tries++) {
    const pseudonym = newPseudonym();
    if (await insertEnrolment(tx, { id, trialId, householdId, regionId, pseudonym })) return true;
  }
  return false;
}

function newPseudonym(): string {
  return Array.from(
    { length: PSEUDONYM_LENGTH },
    () => OUTING_CODE_ALPHABET[randomInt(OUTING_CODE_ALPHABET.length)],
  ).join("");
}

/**
 * Gives a region's free seats to those first in its line and mails them that they have one; returns how many got one.
 * The trial's row must be held, so that no newcomer comes between.
 */
export async function fillFromLine(tx: Transaction, trial: TrialToJoin, regionId: string): Promise<number> {
  const region = trial.regions.find(({ id }) => id === regionId);
  if (!region) return 0;
  const free = region.capacity - region.seatsTaken;
  for (let given = 0; given < free; given++) {
    const next = await firstInLine(tx, trial.id, regionId);
    if (!next) return given;
    await leaveLine(tx, trial.id, next.householdId);
    if (!(await giveSeat(tx, trial.id, next))) throw new Error("A seat counted as free could not be given.");
    const account = await accountOfGrower(tx, next.growerId);
    if (account) {
      const { id: trialId, title, joinCode } = trial;
      await enqueueMail(tx, account, { kind: "place-free", trialId, title, joinCode, region: region.name });
    }
  }
  return free;
}
