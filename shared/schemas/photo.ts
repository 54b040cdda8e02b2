import { z } from "zod";
import { momentSchema } from "./box-event";
import { uuidV7 } from "./id";

/** `opened`: what a box held when it was opened. `set-out`: how a whole set of boxes was set out. */
export const PHOTO_PURPOSES = ["opened", "set-out"] as const;
export type PhotoPurpose = (typeof PHOTO_PURPOSES)[number];

/** Most pictures of one box, and of one set of boxes as it was set out. */
export const MOST_PHOTOS = { opened: 8, "set-out": 4 } as const satisfies Record<PhotoPurpose, number>;

/** What a picture may weigh as it is sent, in bytes. */
export const PHOTO_LIMIT_BYTES = 10_000_000;

/** What a server takes; phones' HEIC pictures are turned into JPEG before they are sent, where the phone can. */
export const PHOTO_TYPES = ["image/jpeg", "image/png", "image/webp"] as const;

/** What goes with a picture, in the address it is sent to. `of` is a box for `opened` and a set for `set-out`. */
export const photoSchema = z.strictObject(
  {
    id: uuidV7,
    purpose: z.enum(PHOTO_PURPOSES, { error: "photo.purpose.unknown" }),
    of: uuidV7,
    takenAt: momentSchema.nullable().default(null),
  },
  { error: "photo.fields" },
);
export type PhotoInput = Readonly<z.infer<typeof photoSchema>>;

export const photoRemovalSchema = z.strictObject({ id: uuidV7, photoId: uuidV7 }, { error: "photo.fields" });
export type PhotoRemoval = Readonly<z.infer<typeof photoRemovalSchema>>;
