import type { BoxEventKind } from "@/shared/vocabulary/box";
import type { Transaction } from "./client";

/** A box with what decides whether something may be recorded of it. */
export interface OwnBox {
  readonly id: string;
  readonly outingId: string;
  readonly trialId: string;
  readonly trialStatus: string;
  /** The day the outing was planned for, midnight UTC. */
  readonly day: Date;
  readonly committed: boolean;
}

/**
 * A box of this grower, held until the transaction ends so that records of it come one after the other; or null.
 * @param by `onlyOutingId` holds it to one set
 */
export async function lockOwnBox(
  tx: Transaction,
  by: { readonly growerId: string; readonly onlyOutingId?: string },
  boxId: string,
): Promise<OwnBox | null> {
  const locked = await tx.$queryRaw<unknown[]>`
    SELECT box.id FROM box JOIN outing ON outing.id = box.outing_id
    WHERE box.id = ${boxId}::uuid AND outing.grower_id = ${by.growerId}::uuid
      AND (${by.onlyOutingId ?? null}::uuid IS NULL OR outing.id = ${by.onlyOutingId ?? null}::uuid)
    FOR UPDATE OF box`;
  if (locked.length === 0) return null;
  const box = await tx.box.findUniqueOrThrow({
    where: { id: boxId },
    include: { outing: { include: { trial: { select: { status: true } } } } },
  });
  const { outing } = box;
  return {
    id: box.id,
    outingId: outing.id,
    trialId: outing.trialId,
    trialStatus: outing.trial.status,
    day: outing.day,
    committed: outing.committedAt !== null,
  };
}

export interface BoxEventRow {
  readonly id: string;
  readonly boxId: string;
  readonly growerId: string;
  readonly kind: BoxEventKind;
  readonly occurredAt: Date;
  readonly offsetMinutes: number;
  readonly withdrawsId: string | null;
  /** Told through a helper link. */
  readonly viaHelper: boolean;
}

/** Keeps an event; false when its id is taken or the event it withdraws is withdrawn already. */
export async function insertBoxEvent(tx: Transaction, event: BoxEventRow): Promise<boolean> {
  const { count } = await tx.boxEvent.createMany({ data: [event], skipDuplicates: true });
  return count === 1;
}

export async function findBoxEvent(tx: Transaction, boxId: string, id: string) {
  return tx.boxEvent.findFirst({ where: { id, boxId }, include: { withdrawnBy: { select: { id: true } } } });
}

/** The events of a box that stand: neither withdrawn nor a mere withdrawal; in the order they happened. */
export async function standingEvents(tx: Transaction, boxIds: readonly string[]): Promise<BoxEventRow[]> {
  const events = await tx.boxEvent.findMany({
    where: { boxId: { in: [...boxIds] }, withdrawnBy: null, kind: { not: "withdrawal" } },
    orderBy: [{ occurredAt: "asc" }, { id: "asc" }],
  });
  return events.map((event) => ({ ...event, kind: event.kind as BoxEventKind }));
}

/** Keeps a grower's own words about something, apart from it. */
export async function keepNote(
  tx: Transaction,
  note: { id: string; accountId: string; subjectId: string; text: string },
): Promise<void> {
  await tx.freeText.create({ data: note });
}
