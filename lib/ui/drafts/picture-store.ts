import { createStore, delMany, entries, set, type UseStore } from "idb-keyval";
import type { PhotoPurpose } from "@/shared/vocabulary/photo";

/** A picture taken and not sent yet; its id is that of the write. */
export interface WaitingPicture {
  readonly id: string;
  readonly purpose: PhotoPurpose;
  /** The box or set it is of. */
  readonly of: string;
  readonly takenAt: string | null;
  readonly file: Blob;
}

let opened: UseStore | undefined;

function store(): UseStore {
  opened ??= createStore("grainlot-pictures", "waiting");
  return opened;
}

/** False where this phone keeps nothing; the picture then lives as long as the page. */
export async function keepPicture(picture: WaitingPicture): Promise<boolean> {
  try {
    await set(picture.id, picture, store());
    return true;
  } catch {
    return false;
  }
}

/** The pictures of a box or set that wait on this phone, in the order they were taken. */
export async function waitingPictures(of: string): Promise<WaitingPicture[]> {
  try {
    const kept = (await entries<string, WaitingPicture>(store())).map(([, picture]) => picture);
    return kept.filter((picture) => picture.of === of).sort((a, b) => (a.id < b.id ? -1 : 1));
  } catch {
    return [];
  }
}

export async function dropPicture(id: string): Promise<void> {
  await delMany([id], store()).catch(() => {});
}

export async function dropAllPictures(): Promise<void> {
  const ids = (await entries<string, WaitingPicture>(store()).catch(() => [])).map(([id]) => id);
  await delMany(ids, store()).catch(() => {});
}
