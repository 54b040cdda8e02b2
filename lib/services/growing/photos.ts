import type { Actor, Recorder } from "@/lib/auth/actor";
import { lockOwnBox } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import {
  countPhotos,
  deleteOwnPhoto,
  findVisiblePhoto,
  hasPhotoOf,
  insertPhoto,
  lockOwnOuting,
  photosOfSet,
} from "@/lib/data/photos";
import { done, type Result, refuse } from "@/lib/errors/result";
import { photoStore } from "@/lib/photos/disk-store";
import type { StoredPhoto } from "@/lib/photos/store";
import type { PhotoInput, PhotoRemoval } from "@/shared/schemas/photo";
import { MOST_PHOTOS, type PhotoSubject, subjectOfPhoto } from "@/shared/vocabulary/photo";
import { momentOf } from "./moments";

/** One of an account's own pictures, as its pages show it. */
export interface PhotoView {
  readonly id: string;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Why the trial's lead hid it from everyone else; null while it is not hidden. */
  readonly hiddenReason: string | null;
}

type PhotoRefusal = "NOT_FOUND" | "NOT_DRAWN_YET" | "TOO_MANY_PICTURES";

/** Keeps what is known of a picture whose bytes are in the store already. A helper's are of boxes, not of where they stand. */
export async function addPhoto(
  tx: Transaction,
  recorder: Recorder,
  input: PhotoInput & { readonly stored: StoredPhoto },
): Promise<Result<PhotoView, PhotoRefusal>> {
  const { id, purpose, of, takenAt, stored } = input;
  const subject = await ownSubject(tx, recorder, subjectOfPhoto(purpose, of));
  if (!subject.ok) return subject;
  if ((await countPhotos(tx, subject.value)) >= MOST_PHOTOS[purpose]) return refuse("TOO_MANY_PICTURES");
  const kept = await insertPhoto(tx, {
    id,
    accountId: recorder.accountId,
    boxId: null,
    outingId: null,
    ...subject.value,
    purpose,
    takenAt: takenAt === null ? null : momentOf(takenAt).at,
    viaHelper: recorder.onlyOutingId !== undefined,
    ...stored,
  });
  if (!kept) return refuse("NOT_FOUND");
  return done({ id, widthPx: stored.widthPx, heightPx: stored.heightPx, hiddenReason: null });
}

async function ownSubject(
  tx: Transaction,
  recorder: Recorder,
  subject: PhotoSubject,
): Promise<Result<PhotoSubject, "NOT_FOUND" | "NOT_DRAWN_YET">> {
  if ("outingId" in subject) {
    const isOwn =
      recorder.onlyOutingId === undefined && (await lockOwnOuting(tx, recorder.growerId, subject.outingId));
    return isOwn ? done(subject) : refuse("NOT_FOUND");
  }
  const box = await lockOwnBox(tx, recorder, subject.boxId);
  if (!box) return refuse("NOT_FOUND");
  return box.committedAt ? done(subject) : refuse("NOT_DRAWN_YET");
}

/**
 * Forgets a picture of the recorder's own, and its bytes last: if that fails, nothing is forgotten. A helper takes away
 * only what a helper sent.
 */
export async function removePhoto(
  tx: Transaction,
  recorder: Recorder,
  { id: _write, photoId, ...of }: PhotoRemoval,
): Promise<Result<null, "NOT_FOUND">> {
  const removed = await deleteOwnPhoto(tx, recorder, photoId, of);
  if (!removed) return refuse("NOT_FOUND");
  await dropUnusedPicture(tx, recorder.accountId, removed.sha256);
  return done(null);
}

/** Takes a picture's bytes out of the store unless another picture of the account has the same. */
export async function dropUnusedPicture(tx: Transaction, accountId: string, sha256: string): Promise<void> {
  if (!(await hasPhotoOf(tx, accountId, sha256))) await photoStore().remove(accountId, sha256);
}

/**
 * A picture's bytes for its owner, or, while it isn't hidden, for a lead of its trial, and for whoever helps with its
 * set if a helper sent it; null for everyone else.
 */
export async function readPhoto(
  tx: Transaction,
  reader: Recorder,
  id: string,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const found = await findVisiblePhoto(tx, reader, id);
  return found && photoStore().read(found.accountId, found.sha256);
}

/** What its owner's pages are told of a picture. */
export function photoView({ id, widthPx, heightPx, hiddenReason }: PhotoView): PhotoView {
  return { id, widthPx, heightPx, hiddenReason };
}

export interface SetPhotos {
  readonly setOut: readonly PhotoView[];
  readonly ofBox: ReadonlyMap<string, readonly PhotoView[]>;
}

/** The actor's own pictures of one set of boxes. */
export async function setPhotos(tx: Transaction, actor: Actor, outingId: string): Promise<SetPhotos> {
  const setOut: PhotoView[] = [];
  const ofBox = new Map<string, PhotoView[]>();
  for (const photo of await photosOfSet(tx, actor, outingId)) {
    const { boxId } = photo;
    if (boxId === null) setOut.push(photoView(photo));
    else ofBox.set(boxId, [...(ofBox.get(boxId) ?? []), photoView(photo)]);
  }
  return { setOut, ofBox };
}
