import { z } from "zod";
import { uuidV7 } from "./id";
import { variantContentSchema } from "./protocol-variant";
import { keepableText } from "./text";

const name = keepableText("variant.name.text")
  .trim()
  .min(1, { error: "variant.name.empty" })
  .max(80, { error: "variant.name.long" });

/** A recipe a grower registers under a name of their own. Every message is a key of the message catalogue. */
export const shelfEntrySchema = z.strictObject(
  {
    id: uuidV7,
    name,
    content: variantContentSchema,
    /** The recipe on one's own shelf that this is a new version of. */
    followsVariantId: z.uuid({ error: "id.uuidV7" }).optional(),
  },
  { error: "variant.fields" },
);

/** A recipe on one's shelf by its id, with another name. */
export const renamedRecipeSchema = z.object({ variantId: z.uuid(), name });

export type ShelfEntryInput = Readonly<z.infer<typeof shelfEntrySchema>>;
