import { z } from "zod";
import { ABANDON_REASONS } from "@/shared/vocabulary/box";
import { noteSchema } from "./box-event";
import { uuidV7 } from "./id";

/** The wish to have an outing's recipes drawn; from then on the outing stands as planned. */
export const drawRequestSchema = z.strictObject({ id: uuidV7, outingId: uuidV7 }, { error: "draw.fields" });

export type DrawRequest = Readonly<z.infer<typeof drawRequestSchema>>;

/** Giving up an outing. One that was drawn keeps its draw. Own words stand apart, in the note. */
export const abandonmentSchema = z.strictObject(
  {
    id: uuidV7,
    outingId: uuidV7,
    reason: z.enum(ABANDON_REASONS, { error: "abandonment.reason.choice" }),
    note: noteSchema,
  },
  { error: "abandonment.fields" },
);

export type Abandonment = Readonly<z.infer<typeof abandonmentSchema>>;
