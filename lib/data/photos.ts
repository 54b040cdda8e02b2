import type { PhotoPurpose } from "@/shared/vocabulary/photo";
import type { Transaction } from "./client";

export interface PhotoRow {
  readonly id: string;
  readonly accountId: string;
  /** Of one box, or of a whole set of boxes; the other is null. */
  readonly boxId: string | null;
  readonly outingId: string | null;
  readonly purpose: PhotoPurpose;
  readonly takenAt: Date | null;
  readonly sha256: string;
  readonly bytes: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Keeps what is known of a picture; false when its id is taken. */
export async function insertPhoto(tx: Transaction, photo: PhotoRow): Promise<boolean> {
  const { count } = await tx.photo.createMany({ data: [photo], skipDuplicates: true });
  return count === 1;
}

/** A set of boxes of this grower, held until the transaction ends so that its pictures come one after the other. */
export async function lockOwnOuting(tx: Transaction, growerId: string, outingId: string): Promise<boolean> {
  const locked = await tx.$queryRaw<unknown[]>`
    SELECT id FROM outing WHERE id = ${outingId}::uuid AND grower_id = ${growerId}::uuid FOR UPDATE`;
  return locked.length === 1;
}

type Subject = { readonly boxId: string } | { readonly outingId: string };

export function countPhotos(tx: Transaction, of: Subject): Promise<number> {
  return tx.photo.count({ where: of });
}

/** An account's own pictures of a set of boxes and of each of its boxes, in the order they came. */
export function photosOfSet(tx: Transaction, accountId: string, outingId: string) {
  return tx.photo.findMany({
    where: { accountId, OR: [{ outingId }, { box: { outingId } }] },
    orderBy: { id: "asc" },
  });
}

/** Where a picture's bytes are, if this account may see it: its own, or, unless hidden, one of a trial it leads. */
export function findVisiblePhoto(tx: Transaction, accountId: string, id: string) {
  const led = { trial: { leads: { some: { accountId } } } };
  return tx.photo.findFirst({
    where: { id, OR: [{ accountId }, { hiddenAt: null, OR: [{ outing: led }, { box: { outing: led } }] }] },
    select: { accountId: true, sha256: true },
  });
}

/** Forgets one of an account's own pictures; null when it has none such. */
export async function deleteOwnPhoto(
  tx: Transaction,
  accountId: string,
  id: string,
): Promise<{ readonly sha256: string } | null> {
  const photo = await tx.photo.findFirst({ where: { id, accountId }, select: { sha256: true } });
  if (photo) await tx.photo.delete({ where: { id } });
  return photo;
}

export async function hasPhotoOf(tx: Transaction, accountId: string, sha256: string): Promise<boolean> {
  return (await tx.photo.count({ where: { accountId, sha256 } })) > 0;
}
