import type { PinInput } from "@/shared/schemas/box-event";
import type { Transaction } from "./client";

/** The exact spot of a set of boxes. */
export interface PinRow {
  /** Degrees, south and west negative. */
  readonly latitude: number;
  readonly longitude: number;
  /** As the phone stated it; null for a typed one. */
  readonly accuracyM: number | null;
  readonly source: PinInput["source"];
  readonly takenAt: Date;
}

/** The pin that this account took of an outing, or null; nobody else's is ever found. */
export async function findOwnPin(
  tx: Transaction,
  accountId: string,
  outingId: string,
): Promise<PinRow | null> {
  const pin = await tx.outingPin.findFirst({ where: { outingId, accountId } });
  if (!pin) return null;
  const { accuracyM, takenAt } = pin;
  const source = pin.source as PinInput["source"];
  return { latitude: Number(pin.latitude), longitude: Number(pin.longitude), accuracyM, source, takenAt };
}

/** Keeps an outing's pin in place of an earlier one. */
export async function keepPin(
  tx: Transaction,
  owner: { readonly outingId: string; readonly accountId: string },
  pin: PinRow,
): Promise<void> {
  const { outingId } = owner;
  await tx.outingPin.upsert({ where: { outingId }, create: { ...owner, ...pin }, update: { ...pin } });
}

export async function erasePin(tx: Transaction, outingId: string): Promise<void> {
  await tx.outingPin.deleteMany({ where: { outingId } });
}
