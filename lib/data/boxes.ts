import type { KeptEventDetail } from "@/shared/schemas/box-event";
import type { BoxEventKind } from "@/shared/vocabulary/box";
import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";

/** A box with what decides whether something may be recorded of it. */
export interface OwnBox {
  readonly id: string;
  readonly position: number;
  readonly outingId: string;
  readonly trialId: string;
  readonly trialStatus: string;
  /** The day the outing was planned for, midnight UTC. */
  readonly day: Date;
  /** When its outing was drawn; null before. */
  readonly committedAt: Date | null;
}

/**
 * A box of this grower, held until the transaction ends so that records of it come one after the other, with its
 * trial as `holdCourse` does; or null.
 * @param by `onlyOutingId` holds it to one set
 */
export async function lockOwnBox(
  tx: Transaction,
  by: { readonly growerId: string; readonly onlyOutingId?: string },
  boxId: string,
): Promise<OwnBox | null> {
  await holdCourse(tx, { boxId });
  const locked = await tx.$queryRaw<unknown[]>`
    SELECT box.id FROM box JOIN outing ON outing.id = box.outing_id
    WHERE box.id = ${boxId}::uuid AND outing.grower_id = ${by.growerId}::uuid
      AND (${by.onlyOutingId ?? null}::uuid IS NULL OR outing.id = ${by.onlyOutingId ?? null}::uuid)
    FOR UPDATE OF box`;
  if (locked.length === 0) return null;
  return ownBox(await tx.box.findUniqueOrThrow({ where: { id: boxId }, include: WITH_OUTING }));
}

/**
 * All boxes of an outing of this grower by position, held likewise; empty when there is no such outing.
 * @param by `onlyOutingId` holds it to one set
 */
export async function lockOwnBoxes(
  tx: Transaction,
  by: { readonly growerId: string; readonly onlyOutingId?: string },
  outingId: string,
): Promise<OwnBox[]> {
  if (by.onlyOutingId !== undefined && by.onlyOutingId !== outingId) return [];
  await holdCourse(tx, { outingId });
  await tx.$queryRaw`
    SELECT box.id FROM box JOIN outing ON outing.id = box.outing_id
    WHERE outing.id = ${outingId}::uuid AND outing.grower_id = ${by.growerId}::uuid
    ORDER BY box.id FOR UPDATE OF box`;
  const where = { outing: { id: outingId, growerId: by.growerId } };
  const boxes = await tx.box.findMany({ where, orderBy: { position: "asc" }, include: WITH_OUTING });
  return boxes.map(ownBox);
}

/**
 * Keeps the trial of a set, or of a box, from being closed until the transaction ends: what is recorded while it is
 * open is there for its closing cut, and what comes later stays outside. Taken before anything else is held.
 */
export async function holdCourse(
  tx: Transaction,
  of: { readonly boxId: string } | { readonly outingId: string },
): Promise<void> {
  await ("boxId" in of
    ? tx.$queryRaw`
        SELECT trial.id FROM trial JOIN outing ON outing.trial_id = trial.id JOIN box ON box.outing_id = outing.id
        WHERE box.id = ${of.boxId}::uuid FOR KEY SHARE OF trial`
    : tx.$queryRaw`
        SELECT trial.id FROM trial JOIN outing ON outing.trial_id = trial.id
        WHERE outing.id = ${of.outingId}::uuid FOR KEY SHARE OF trial`);
}

const WITH_OUTING = { outing: { include: { trial: { select: { status: true } } } } } as const;

function ownBox({ id, position, outing }: Prisma.BoxGetPayload<{ include: typeof WITH_OUTING }>): OwnBox {
  return {
    id,
    position,
    outingId: outing.id,
    trialId: outing.trialId,
    trialStatus: outing.trial.status,
    day: outing.day,
    committedAt: outing.committedAt,
  };
}

export interface BoxEventRow {
  readonly id: string;
  readonly boxId: string;
  readonly growerId: string;
  readonly kind: BoxEventKind;
  readonly occurredAt: Date;
  readonly offsetMinutes: number;
  readonly detail: KeptEventDetail | null;
  readonly withdrawsId: string | null;
  /** Told through a helper link. */
  readonly viaHelper: boolean;
}

/** Keeps an event; false when its id is taken or the event it withdraws is withdrawn already. */
export async function insertBoxEvent(tx: Transaction, event: BoxEventRow): Promise<boolean> {
  const { detail, ...rest } = event;
  const data = detail ? { ...rest, detail: detail as unknown as Prisma.InputJsonValue } : rest;
  const { count } = await tx.boxEvent.createMany({ data: [data], skipDuplicates: true });
  return count === 1;
}

export async function findBoxEvent(tx: Transaction, boxId: string, id: string) {
  return tx.boxEvent.findFirst({ where: { id, boxId }, include: { withdrawnBy: { select: { id: true } } } });
}

/** The events of these boxes that stand, neither withdrawn nor a mere withdrawal, in the order they were told. */
export async function standingEvents(tx: Transaction, boxIds: readonly string[]): Promise<BoxEventRow[]> {
  const events = await tx.boxEvent.findMany({
    where: { boxId: { in: [...boxIds] }, withdrawnBy: null, kind: { not: "withdrawal" } },
    orderBy: [{ receivedAt: "asc" }, { id: "asc" }],
  });
  return events.map((event) => ({
    ...event,
    kind: event.kind as BoxEventKind,
    detail: event.detail as unknown as KeptEventDetail | null,
  }));
}

/** Keeps a grower's own words about something, apart from it. */
export async function keepNote(
  tx: Transaction,
  note: { id: string; accountId: string; subjectId: string; text: string },
): Promise<void> {
  await tx.freeText.create({ data: note });
}
