import { z } from "zod";
import { PHOTO_PURPOSES } from "@/shared/vocabulary/photo";
import { momentSchema } from "./box-event";
import { uuidV7 } from "./id";

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

/** A picture to be forgotten, with the box or the set of boxes it is of. */
export const photoRemovalSchema = z.union(
  [
    z.strictObject({ id: uuidV7, photoId: uuidV7, boxId: uuidV7 }),
    z.strictObject({ id: uuidV7, photoId: uuidV7, outingId: uuidV7 }),
  ],
  { error: "photo.fields" },
);
export type PhotoRemoval = Readonly<z.infer<typeof photoRemovalSchema>>;
