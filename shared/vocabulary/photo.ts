/** `opened`: what a box held when it was opened. `set-out`: how a whole set of boxes was set out. */
export const PHOTO_PURPOSES = ["opened", "set-out"] as const;
export type PhotoPurpose = (typeof PHOTO_PURPOSES)[number];

/** What a picture is of: one box, or a set of boxes. */
export type PhotoSubject = { readonly boxId: string } | { readonly outingId: string };

export function subjectOfPhoto(purpose: PhotoPurpose, of: string): PhotoSubject {
  return purpose === "opened" ? { boxId: of } : { outingId: of };
}

/** Most pictures of one box, and of one set of boxes as it was set out. */
export const MOST_PHOTOS = { opened: 8, "set-out": 4 } as const satisfies Record<PhotoPurpose, number>;

/** What a picture may weigh as it is sent, in bytes. */
export const PHOTO_LIMIT_BYTES = 10_000_000;

/** What a server takes; phones' HEIC pictures are turned into JPEG before they are sent, where the phone can. */
export const PHOTO_TYPES = ["image/jpeg", "image/png", "image/webp"] as const;
