import { endsInForce, type TrialEnds } from "./amendments";
import type { Transaction } from "./client";

export interface RegionSeats {
  readonly id: string;
  readonly name: string;
  readonly capacity: number;
  readonly seatsTaken: number;
  /** Households in line for a seat. */
  readonly waiting: number;
}

export interface TrialToJoin {
  readonly id: string;
  readonly slug: string;
  readonly title: string;
  readonly question: string;
  readonly status: string;
  readonly invented: boolean;
  readonly joinCode: string;
  /** Boxes in one set. */
  readonly boxesMin: number;
  readonly boxesMax: number;
  /** The ends in force, amendments counted. */
  readonly ends: TrialEnds;
  readonly regions: readonly RegionSeats[];
}

/** The trial a join code leads to, whatever its status. */
export async function findTrialByJoinCode(tx: Transaction, joinCode: string): Promise<TrialToJoin | null> {
  return trialToJoin(tx, { joinCode });
}

/** The same by id. */
export async function findTrialToJoin(tx: Transaction, id: string): Promise<TrialToJoin | null> {
  return trialToJoin(tx, { id });
}

async function trialToJoin(
  tx: Transaction,
  where: { joinCode: string } | { id: string },
): Promise<TrialToJoin | null> {
  const trial = await tx.trial.findUnique({
    where,
    include: { regions: { include: { region: true }, orderBy: { region: { name: "asc" } } } },
  });
  if (!trial) return null;
  const { id, slug, title, question, status, invented, joinCode, boxesMin, boxesMax } = trial;
  const line = await tx.waitingPlace.groupBy({ by: ["regionId"], where: { trialId: id }, _count: true });
  const waiting = new Map(line.map(({ regionId, _count }) => [regionId, _count]));
  return {
    ...{ id, slug, title, question, status, invented, joinCode, boxesMin, boxesMax },
    ends: endsInForce(trial),
    regions: trial.regions.map(({ region, capacity, seatsTaken }) => ({
      id: region.id,
      name: region.name,
      capacity,
      seatsTaken,
      waiting: waiting.get(region.id) ?? 0,
    })),
  };
}

/**
 * Holds an open trial's row until the transaction ends; false when it isn't open. Whatever gives, frees or queues for
 * a seat holds it first, so that seats and line change one household at a time, and never beside a draw.
 */
export async function lockOpenTrial(tx: Transaction, trialId: string): Promise<boolean> {
  const held = await tx.$queryRaw<unknown[]>`
    SELECT id FROM trial WHERE id = ${trialId}::uuid AND status = 'open' FOR UPDATE`;
  return held.length === 1;
}

/** Keeps seats of a trial from changing hands until the transaction ends; others may do so at the same time. */
export async function holdSeats(tx: Transaction, trialId: string): Promise<void> {
  await tx.$queryRaw`SELECT id FROM trial WHERE id = ${trialId}::uuid FOR KEY SHARE`;
}

/** The seat a grower takes part with: their household's, once they have agreed themselves. Null without, or when it left. */
export async function findEnrolment(
  tx: Transaction,
  trialId: string,
  { householdId, growerId }: { readonly householdId: string; readonly growerId: string },
) {
  if (!(await hasAgreed(tx, trialId, growerId))) return null;
  return tx.enrolment.findUnique({
    where: { trialId_householdId: { trialId, householdId }, leftAt: null },
    include: { region: true },
  });
}

export interface EnrolmentRecord {
  readonly id: string;
  readonly regionId: string;
  readonly leftAt: Date | null;
  /** Sets of boxes that chance has picked recipes for. */
  readonly draws: number;
}

/** A household's enrolment whether it stands or was left. */
export async function findEnrolmentRecord(
  tx: Transaction,
  trialId: string,
  householdId: string,
): Promise<EnrolmentRecord | null> {
  const found = await tx.enrolment.findUnique({
    where: { trialId_householdId: { trialId, householdId } },
    include: { _count: { select: { outings: { where: { draw: { isNot: null } } } } } },
  });
  return (
    found && { id: found.id, regionId: found.regionId, leftAt: found.leftAt, draws: found._count.outings }
  );
}

/** Keeps an enrolment unless household, pseudonym or id is taken; says whether it was kept. */
export async function insertEnrolment(
  tx: Transaction,
  enrolment: { id: string; trialId: string; householdId: string; regionId: string; pseudonym: string },
): Promise<boolean> {
  const { count } = await tx.enrolment.createMany({ data: [enrolment], skipDuplicates: true });
  return count === 1;
}

/** Puts an enrolment that was left into force again, under its old pseudonym. */
export async function resumeEnrolment(tx: Transaction, id: string, regionId: string): Promise<void> {
  await tx.enrolment.update({ where: { id }, data: { leftAt: null, regionId } });
}

/** Marks an enrolment as left and gives up its sets that have no draw yet. */
export async function endEnrolment(tx: Transaction, id: string, leftAt: Date): Promise<void> {
  await tx.enrolment.update({ where: { id }, data: { leftAt } });
  await tx.outing.updateMany({
    where: { enrolmentId: id, status: "planned" },
    data: { status: "abandoned", abandonedAt: leftAt, abandonReason: "other" },
  });
}

/** Takes a seat of a region by one conditional update; false when there is none left (or no such region). */
export async function takeSeat(tx: Transaction, trialId: string, regionId: string): Promise<boolean> {
  const taken = await tx.$executeRaw`
    UPDATE trial_region SET seats_taken = seats_taken + 1
    WHERE trial_id = ${trialId}::uuid AND region_id = ${regionId}::uuid AND seats_taken < capacity`;
  return taken === 1;
}

export async function freeSeat(tx: Transaction, trialId: string, regionId: string): Promise<void> {
  await tx.trialRegion.update({
    where: { trialId_regionId: { trialId, regionId } },
    data: { seatsTaken: { decrement: 1 } },
  });
}

/** Sets how many seats a region has; false, and nothing changed, when more are taken already (or no such region). */
export async function setCapacity(
  tx: Transaction,
  trialId: string,
  regionId: string,
  capacity: number,
): Promise<boolean> {
  const { count } = await tx.trialRegion.updateMany({
    where: { trialId, regionId, seatsTaken: { lte: capacity } },
    data: { capacity },
  });
  return count === 1;
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
    where: { householdId, leftAt: null },
    include: { trial: true, region: true },
    orderBy: { joinedAt: "desc" },
  });
}
