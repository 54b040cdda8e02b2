import type { Transaction } from "./client";

/** A household's turn in a region's line for seats. */
export interface WaitingRow {
  readonly id: string;
  readonly householdId: string;
  readonly growerId: string;
  readonly regionId: string;
  readonly agreementVersion: string;
}

/**
 * Puts a household at the end of a region's line. The trial's row must be held: then the clock and the rising id give
 * the order of asking.
 */
export async function joinLine(
  tx: Transaction,
  place: WaitingRow & { readonly trialId: string },
): Promise<void> {
  const [clock] = await tx.$queryRaw<{ at: Date }[]>`SELECT clock_timestamp()::timestamptz(3) AS at`;
  await tx.waitingPlace.create({ data: { ...place, askedAt: clock!.at } });
}

export interface WaitingStanding {
  readonly id: string;
  readonly regionId: string;
  readonly regionName: string;
  /** 1: next to get a seat. */
  readonly place: number;
}

/** Where a household stands in line; null when it doesn't. */
export async function findWaiting(
  tx: Transaction,
  trialId: string,
  householdId: string,
): Promise<WaitingStanding | null> {
  const own = await tx.waitingPlace.findUnique({
    where: { trialId_householdId: { trialId, householdId } },
    include: { region: true },
  });
  if (!own) return null;
  const before = await tx.waitingPlace.count({
    where: {
      trialId,
      regionId: own.regionId,
      OR: [{ askedAt: { lt: own.askedAt } }, { askedAt: own.askedAt, id: { lt: own.id } }],
    },
  });
  return { id: own.id, regionId: own.regionId, regionName: own.region.name, place: before + 1 };
}

/** Who has waited longest for a seat of a region. */
export async function firstInLine(
  tx: Transaction,
  trialId: string,
  regionId: string,
): Promise<WaitingRow | null> {
  return tx.waitingPlace.findFirst({
    where: { trialId, regionId },
    orderBy: [{ askedAt: "asc" }, { id: "asc" }],
    select: { id: true, householdId: true, growerId: true, regionId: true, agreementVersion: true },
  });
}

/** Takes a household out of the line; false when it wasn't in it. */
export async function leaveLine(tx: Transaction, trialId: string, householdId: string): Promise<boolean> {
  const { count } = await tx.waitingPlace.deleteMany({ where: { trialId, householdId } });
  return count === 1;
}
