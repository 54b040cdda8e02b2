import { z } from "zod";
import {
  BOX_EVENT_KINDS,
  type BoxEventKind,
  COOKING_DIFFERENCES,
  NOT_COOKED_REASONS,
  NOT_RECORDABLE_REASONS,
  OUTING_BOXES,
} from "@/shared/vocabulary/box";
import { GRAINS } from "@/shared/vocabulary/grain";
import { NOTE_MAX_LENGTH } from "@/shared/vocabulary/text";
import { uuidV7 } from "./id";
import { keepableText } from "./text";

/** Free text that never enters a hash, an analysis or a release. Nothing written, or blanks only, is `null`. */
export const noteSchema = keepableText("note.text")
  .trim()
  .max(NOTE_MAX_LENGTH, { error: "note.long" })
  .transform((text) => (text === "" ? null : text))
  .nullable();

/** A moment with the offset of the place where it was noted (ISO 8601), so that the local hour is kept. */
export const momentSchema = z.iso.datetime({ offset: true, error: "moment.offset" });

const FIELDS = { error: "boxEvent.fields" };
const DETAIL = { error: "boxEvent.detail" };

/** What an event says beside its kind, in choices and numbers; own words stand apart, in the note. */
export const boxEventDetailSchema = z.discriminatedUnion(
  "kind",
  [
    z.strictObject(
      {
        kind: z.literal("cooked-otherwise"),
        differs: z
          .array(z.enum(COOKING_DIFFERENCES, DETAIL), DETAIL)
          .min(1, { error: "boxEvent.differs.empty" })
          .refine((list) => new Set(list).size === list.length, { error: "boxEvent.differs.repeated" }),
        /** The grain that was taken instead. */
        grain: z.enum(GRAINS, DETAIL).nullable(),
        cookMinutes: z
          .int({ error: "variant.cookMinutes.whole" })
          .min(0, { error: "variant.cookMinutes.range" })
          .max(180, { error: "variant.cookMinutes.range" })
          .nullable(),
      },
      DETAIL,
    ),
    z.strictObject({ kind: z.literal("not-cooked"), reason: z.enum(NOT_COOKED_REASONS, DETAIL) }, DETAIL),
    /** Whether the box is still known, by its place among the others. */
    z.strictObject({ kind: z.literal("label-gone"), known: z.boolean(DETAIL) }, DETAIL),
    z.strictObject(
      { kind: z.literal("growth-not-recordable"), reason: z.enum(NOT_RECORDABLE_REASONS, DETAIL) },
      DETAIL,
    ),
  ],
  DETAIL,
);
export type BoxEventDetail = Readonly<z.infer<typeof boxEventDetailSchema>>;

/** As it is kept: an event that follows from another names it, and is taken back with it. */
export type KeptEventDetail = BoxEventDetail & { readonly becauseOf?: string };

const kindSchema = z.enum(BOX_EVENT_KINDS as [BoxEventKind, ...BoxEventKind[]], {
  error: "boxEvent.kind.unknown",
});

const detailFits = (event: { kind: BoxEventKind; detail?: BoxEventDetail | null | undefined }) =>
  !event.detail || event.detail.kind === event.kind;

/**
 * One event of one box, told by a phone. An event told wrongly is withdrawn by id, either by the right one
 * (`withdrawsId` beside its kind) or by a bare `withdrawal`. Every message is a key of the message catalogue.
 */
export const boxEventSchema = z
  .strictObject(
    {
      id: uuidV7,
      boxId: uuidV7,
      kind: kindSchema,
      occurredAt: momentSchema,
      withdrawsId: uuidV7.nullable(),
      detail: boxEventDetailSchema.nullish(),
      note: noteSchema,
    },
    FIELDS,
  )
  .refine((event) => event.kind !== "withdrawal" || event.withdrawsId !== null, {
    path: ["withdrawsId"],
    error: "boxEvent.withdrawsId.missing",
  })
  .refine((event) => event.withdrawsId !== event.id, {
    path: ["withdrawsId"],
    error: "boxEvent.withdrawsId.itself",
  })
  .refine(detailFits, { path: ["detail"], error: "boxEvent.detail" });

export type BoxEventInput = Readonly<z.infer<typeof boxEventSchema>>;

const toldSchema = z
  .strictObject(
    {
      id: uuidV7,
      boxId: uuidV7,
      kind: kindSchema.exclude(["withdrawal"]),
      detail: boxEventDetailSchema.nullable(),
    },
    FIELDS,
  )
  .refine(detailFits, { path: ["detail"], error: "boxEvent.detail" });

/** How the boxes of a set stand, as measured at set-out; each may be left open. */
const standingSchema = z.strictObject(
  {
    sunkCm: z
      .number({ error: "setOut.sunk.number" })
      .min(0, { error: "setOut.sunk.range" })
      .max(50, { error: "setOut.sunk.range" })
      .multipleOf(0.1, { error: "setOut.sunk.tooFine" })
      .nullable(),
    spacingCm: z
      .int({ error: "setOut.spacing.whole" })
      .min(0, { error: "setOut.spacing.range" })
      .max(10_000, { error: "setOut.spacing.range" })
      .nullable(),
  },
  FIELDS,
);

/** The exact spot of a set of boxes; it leaves the server only to its owner. */
const pinSchema = z.strictObject(
  {
    latitude: z
      .number({ error: "pin.latitude.number" })
      .min(-90, { error: "site.latitude.range" })
      .max(90, { error: "site.latitude.range" }),
    longitude: z
      .number({ error: "pin.longitude.number" })
      .min(-180, { error: "site.longitude.range" })
      .max(180, { error: "site.longitude.range" }),
    /** As the phone states it; null for a typed one. */
    accuracyM: z.int(FIELDS).min(0, FIELDS).max(100_000, FIELDS).nullable(),
    source: z.enum(["phone", "typed"], FIELDS),
    takenAt: momentSchema,
  },
  FIELDS,
);
export type PinInput = Readonly<z.infer<typeof pinSchema>>;

/** What was done at once to boxes of one set, or happened to them: all of it is kept, or nothing. */
export const setReportSchema = z
  .strictObject(
    {
      id: uuidV7,
      outingId: uuidV7,
      occurredAt: momentSchema,
      told: z
        .array(toldSchema, FIELDS)
        .min(1, { error: "boxEvent.boxes.none" })
        .max(2 * OUTING_BOXES.max, FIELDS),
      standing: standingSchema.nullable(),
      pin: pinSchema.nullable(),
      note: noteSchema,
    },
    FIELDS,
  )
  .refine(
    ({ told, standing, pin }) =>
      told.some(({ kind }) => kind === "set-out") || (standing === null && pin === null),
    FIELDS,
  );
export type SetReport = Readonly<z.infer<typeof setReportSchema>>;

/** Keeps or erases the exact spot of a set that stands out. */
export const pinRequestSchema = z.strictObject(
  { id: uuidV7, outingId: uuidV7, pin: pinSchema.nullable() },
  FIELDS,
);
export type PinRequest = Readonly<z.infer<typeof pinRequestSchema>>;
