import { endsInForce, type TrialEnds } from "./amendments";
import type { Transaction } from "./client";

export interface TrialToJoin {
  readonly id: string;
  readonly slug: string;
  readonly title: string;
  readonly question: string;
  readonly status: string;
  readonly invented: boolean;
  /** The ends in force, amendments counted. */
  readonly ends: TrialEnds;
  readonly regions: readonly {
    readonly id: string;
    readonly name: string;
    readonly capacity: number;
    readonly seatsTaken: number;
  }[];
}

export async function findTrialByJoinCode(tx: Transaction, joinCode: string): Promise<TrialToJoin | null> {
  const trial = await tx.trial.findUnique({
    where: { joinCode },
    include: { regions: { include: { region: true }, orderBy: { region: { name: "asc" } } } },
  });
  if (!trial) return null;
  const { id, slug, title, question, status, invented } = trial;
  const regions = trial.regions.map(({ region, capacity, seatsTaken }) => ({
    id: region.id,
    name: region.name,
    capacity,
    seatsTaken,
  }));
  return { id, slug, title, question, status, invented, ends: endsInForce(trial), regions };
}

export function findEnrolment(tx: Transaction, trialId: string, householdId: string) {
  return tx.enrolment.findUnique({
    where: { trialId_householdId: { trialId, householdId } },
    include: { region: true },
  });
}

/**
 * Keeps an enrolment unless household, pseudonym or id is taken; says whether it was kept. A second adult of the
 * same household waits here for the first one's transaction.
 */
export async function insertEnrolment(
  tx: Transaction,
  enrolment: { id: string; trialId: string; householdId: string; regionId: string; pseudonym: string },
): Promise<boolean> {
  const { count } = await tx.enrolment.createMany({ data: [enrolment], skipDuplicates: true });
  return count === 1;
}

/** Takes a seat of a region by one conditional update; false when there is none left (or no such region). */
export async function takeSeat(tx: Transaction, trialId: string, regionId: string): Promise<boolean> {
  const taken = await tx.$executeRaw`
    UPDATE trial_region SET seats_taken = seats_taken + 1
    WHERE trial_id = ${trialId}::uuid AND region_id = ${regionId}::uuid AND seats_taken < capacity`;
  return taken === 1;
}

/** Keeps that a grower agreed; false when they had agreed to this version before. */
export async function addAgreement(
  tx: Transaction,
  agreement: { id: string; trialId: string; growerId: string; version: string },
): Promise<boolean> {
  const { count } = await tx.agreement.createMany({ data: [agreement], skipDuplicates: true });
  return count === 1;
}

export async function hasAgreed(tx: Transaction, trialId: string, growerId: string): Promise<boolean> {
  return (await tx.agreement.count({ where: { trialId, growerId } })) > 0;
}

/** The trials a household takes part in, newest first. */
export function enrolmentsOf(tx: Transaction, householdId: string) {
  return tx.enrolment.findMany({
    where: { householdId },
    include: { trial: true, region: true },
    orderBy: { joinedAt: "desc" },
  });
}
