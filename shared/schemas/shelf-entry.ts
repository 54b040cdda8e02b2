import { z } from "zod";
import { uuidV7 } from "./id";
import { variantContentSchema } from "./protocol-variant";

/** A recipe a grower registers under a name of their own. Every message is a key of the message catalogue. */
export const shelfEntrySchema = z.strictObject(
  {
    id: uuidV7,
    name: z
      .string({ error: "variant.name.text" })
      .trim()
      .min(1, { error: "variant.name.empty" })
      .max(80, { error: "variant.name.long" }),
    content: variantContentSchema,
  },
  { error: "variant.fields" },
);

export type ShelfEntryInput = Readonly<z.infer<typeof shelfEntrySchema>>;
