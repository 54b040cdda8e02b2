import { z } from "zod";
import { BOX_EVENT_KINDS, type BoxEventKind } from "@/shared/vocabulary/box";
import { uuidV7 } from "./id";

/** Longest free text of an event or a grade, in characters. It is kept apart and can be erased. */
export const NOTE_MAX_LENGTH = 500;

/** Free text that never enters a hash, an analysis or a release. Nothing written, or blanks only, is `null`. */
export const noteSchema = z
  .string({ error: "note.text" })
  .trim()
  .max(NOTE_MAX_LENGTH, { error: "note.long" })
  .transform((text) => (text === "" ? null : text))
  .nullable();

/** A moment with the offset of the place where it was noted (ISO 8601), so that the local hour is kept. */
export const momentSchema = z.iso.datetime({ offset: true, error: "moment.offset" });

/**
 * One event of one box, told by a phone. An event told wrongly is withdrawn by id, either by the right one
 * (`withdrawsId` beside its kind) or by a bare `withdrawal`. Every message is a key of the message catalogue.
 */
export const boxEventSchema = z
  .strictObject(
    {
      id: uuidV7,
      boxId: uuidV7,
      kind: z.enum(BOX_EVENT_KINDS as [BoxEventKind, ...BoxEventKind[]], { error: "boxEvent.kind.unknown" }),
      occurredAt: momentSchema,
      withdrawsId: uuidV7.nullable(),
      note: noteSchema,
    },
    { error: "boxEvent.fields" },
  )
  .refine((event) => event.kind !== "withdrawal" || event.withdrawsId !== null, {
    path: ["withdrawsId"],
    error: "boxEvent.withdrawsId.missing",
  })
  .refine((event) => event.withdrawsId !== event.id, {
    path: ["withdrawsId"],
    error: "boxEvent.withdrawsId.itself",
  });

export type BoxEventInput = Readonly<z.infer<typeof boxEventSchema>>;
