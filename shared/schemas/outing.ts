import { z } from "zod";
import {
  BOX_KINDS,
  COVERS,
  GUARDS,
  MAX_GRAIN_DEPTH_CM,
  MIN_GRAIN_DEPTH_CM,
  OUTING_BOXES,
} from "@/shared/vocabulary/box";
import { GRAINS } from "@/shared/vocabulary/grain";
import { PERMISSIONS } from "@/shared/vocabulary/place";
import { momentSchema } from "./box-event";
import { uuidV7 } from "./id";

/** An inner measure of a box, cm, to the millimetre. */
const innerCm = (name: "innerLength" | "innerWidth" | "innerHeight") =>
  z
    .number({ error: `outing.${name}.number` })
    .min(5, { error: `outing.${name}.range` })
    .max(100, { error: `outing.${name}.range` })
    .multipleOf(0.1, { error: `outing.${name}.tooFine` });

const allDifferent = (items: readonly unknown[]) => new Set(items).size === items.length;

/** How a set of boxes is set out: all that may change until its draw. */
const planned = {
  siteId: z.uuidv7({ error: "outing.siteId.choice" }),
  day: z.iso.date({ error: "outing.day.date" }),
  boxKind: z.enum(BOX_KINDS, { error: "outing.boxKind.unknown" }),
  innerLengthCm: innerCm("innerLength"),
  innerWidthCm: innerCm("innerWidth"),
  /** To the cover; null where it wasn't measured. */
  innerHeightCm: innerCm("innerHeight").nullable(),
  grainDepthCm: z
    .number({ error: "outing.grainDepth.number" })
    .min(MIN_GRAIN_DEPTH_CM, { error: "outing.grainDepth.range" })
    .max(MAX_GRAIN_DEPTH_CM, { error: "outing.grainDepth.range" })
    .multipleOf(0.1, { error: "outing.grainDepth.tooFine" }),
  cover: z.enum(COVERS, { error: "outing.cover.unknown" }),
  /** Whether the cover stands clear of the grain, as the grower says; null where that isn't known. */
  coverClear: z.boolean({ error: "outing.coverClear.choice" }).nullable(),
  guard: z.enum(GUARDS, { error: "outing.guard.unknown" }),
  boxes: z
    .array(z.strictObject({ id: uuidV7 }, { error: "outing.boxes.fields" }), {
      error: "outing.boxes.list",
    })
    .min(OUTING_BOXES.min, { error: "outing.boxes.count" })
    .max(OUTING_BOXES.max, { error: "outing.boxes.count" })
    .refine((boxes) => allDifferent(boxes.map((box) => box.id)), { error: "outing.boxes.repeated" }),
  grainsAtHand: z
    .array(z.enum(GRAINS, { error: "outing.grainsAtHand.unknown" }), { error: "outing.grainsAtHand.list" })
    .min(1, { error: "outing.grainsAtHand.empty" })
    .refine(allDifferent, { error: "outing.grainsAtHand.repeated" }),
  /** By what right the boxes stand there, where the place doesn't say it for this season yet; it is kept with the place. */
  permission: z.enum(PERMISSIONS, { error: "site.permission.unknown" }).optional(),
};

const grainFits = ({ innerHeightCm, grainDepthCm }: { innerHeightCm: number | null; grainDepthCm: number }) =>
  innerHeightCm === null || innerHeightCm >= grainDepthCm;
const GRAIN_TOO_DEEP = { path: ["innerHeightCm"], error: "outing.innerHeight.belowGrain" };

/**
 * An outing as a phone plans it: one grower (the sender), one site, one day, one kind of box, depth, cover and
 * guard. Box ids come from the phone, in the order the boxes stand. Every message is a key of the message catalogue.
 */
export const outingSchema = z
  .strictObject({ id: uuidV7, trialId: uuidV7, ...planned }, { error: "outing.fields" })
  .refine(grainFits, GRAIN_TOO_DEEP);
export type OutingInput = Readonly<z.infer<typeof outingSchema>>;

const basedOn = z.int({ error: "outing.fields" }).min(1, { error: "outing.fields" });

/** A planned outing planned anew before its draw, made from the version that was shown. */
export const outingChangeSchema = z
  .strictObject({ id: uuidV7, outingId: uuidV7, basedOn, ...planned }, { error: "outing.fields" })
  .refine(grainFits, GRAIN_TOO_DEEP);
export type OutingChange = Readonly<z.infer<typeof outingChangeSchema>>;

/** Another day for an outing that isn't set out yet; its draw stays. */
export const outingDaySchema = z.strictObject(
  { id: uuidV7, outingId: uuidV7, basedOn, day: planned.day },
  { error: "outing.fields" },
);
export type OutingDay = Readonly<z.infer<typeof outingDaySchema>>;

/** One box less than planned: the one with the highest number is left out, with its draw. */
export const boxShortSchema = z.strictObject(
  { id: uuidV7, outingId: uuidV7, occurredAt: momentSchema },
  { error: "outing.fields" },
);
export type BoxShort = Readonly<z.infer<typeof boxShortSchema>>;
