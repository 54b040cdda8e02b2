import { z } from "zod";
import { MOST_JAR_G } from "@/shared/vocabulary/jar";
import { momentSchema } from "./box-event";
import { uuidV7 } from "./id";

/** Most boxes of one jar. */
export const MOST_JAR_BOXES = 24;
/** Kept in whole grams, as kitchen scales show them. */
const grams = z
  .number({ error: "jar.grams.number" })
  .max(MOST_JAR_G, { error: "jar.grams.range" })
  .transform(Math.round);

const contents = {
  boxes: z
    .array(
      z.strictObject({
        boxId: uuidV7,
        grainG: grams.refine((mass) => mass >= 1, { error: "jar.grams.range" }),
      }),
      { error: "jar.boxes.none" },
    )
    .min(1, { error: "jar.boxes.none" })
    .max(MOST_JAR_BOXES, { error: "jar.boxes.many" })
    .refine((boxes) => new Set(boxes.map(({ boxId }) => boxId)).size === boxes.length, {
      error: "jar.boxes.repeated",
    }),
  sugarG: grams.refine((mass) => mass >= 0, { error: "jar.sugar.range" }),
  madeAt: momentSchema,
};

/** A jar: grain from one or more boxes, with so much sugar. */
export const jarSchema = z.strictObject({ id: uuidV7, ...contents }, { error: "jar.fields" });
export type JarInput = Readonly<z.infer<typeof jarSchema>>;

/** A jar told wrongly, with all of it as it should stand, made from the version that was shown. */
export const jarEditSchema = z.strictObject(
  {
    id: uuidV7,
    jarId: uuidV7,
    basedOn: z.int({ error: "jar.fields" }).min(1, { error: "jar.fields" }),
    ...contents,
  },
  { error: "jar.fields" },
);
export type JarEdit = Readonly<z.infer<typeof jarEditSchema>>;

export const jarRemovalSchema = z.strictObject({ id: uuidV7, jarId: uuidV7 }, { error: "jar.fields" });
export type JarRemoval = Readonly<z.infer<typeof jarRemovalSchema>>;
