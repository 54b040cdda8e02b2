import type { PhotoPurpose, PhotoSubject } from "@/shared/vocabulary/photo";
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
  /** Sent through a helper link. */
  readonly viaHelper: boolean;
}

/** Whose pictures: an account's, or, for a helper, those that helpers sent of the boxes of one set of it. */
interface PhotoKeeper {
  readonly accountId: string;
  readonly onlyOutingId?: string;
}

/** What a keeper may see as its own and take away; a helper no more of what a lead has hidden. */
const keptBy = ({ accountId, onlyOutingId }: PhotoKeeper) =>
  onlyOutingId === undefined
    ? { accountId }
    : { accountId, viaHelper: true, hiddenAt: null, box: { outingId: onlyOutingId } };

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

export function countPhotos(tx: Transaction, of: PhotoSubject): Promise<number> {
  return tx.photo.count({ where: of });
}

/** A keeper's own pictures of a set of boxes and of each of its boxes, in the order they came. */
export function photosOfSet(tx: Transaction, keeper: PhotoKeeper, outingId: string) {
  return tx.photo.findMany({
    where: { AND: [keptBy(keeper), { OR: [{ outingId }, { box: { outingId } }] }] },
    orderBy: { id: "asc" },
  });
}

/** Where a picture's bytes are, if this keeper may see it: its own, or, unless hidden, one of a trial its account leads. */
export function findVisiblePhoto(tx: Transaction, keeper: PhotoKeeper, id: string) {
  const led = { trial: { leads: { some: { accountId: keeper.accountId } } } };
  const ofTrial = { hiddenAt: null, OR: [{ outing: led }, { box: { outing: led } }] };
  return tx.photo.findFirst({
    where: { id, OR: [keptBy(keeper), ...(keeper.onlyOutingId === undefined ? [ofTrial] : [])] },
    select: { accountId: true, sha256: true },
  });
}

/** Forgets one of a keeper's own pictures; null when it has none such of that subject. */
export async function deleteOwnPhoto(
  tx: Transaction,
  keeper: PhotoKeeper,
  id: string,
  of: PhotoSubject,
): Promise<{ readonly sha256: string } | null> {
  const photo = await tx.photo.findFirst({
    where: { AND: [{ id, ...of }, keptBy(keeper)] },
    select: { sha256: true },
  });
  if (photo) await tx.photo.delete({ where: { id } });
  return photo;
}

export async function hasPhotoOf(tx: Transaction, accountId: string, sha256: string): Promise<boolean> {
  return (await tx.photo.count({ where: { accountId, sha256 } })) > 0;
}
