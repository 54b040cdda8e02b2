import { z } from "zod";
import { BOX_KINDS, COVERS, GUARDS, MAX_GRAIN_DEPTH_CM, OUTING_BOXES } from "@/shared/vocabulary/box";
import { GRAINS } from "@/shared/vocabulary/grain";
import { uuidV7 } from "./id";

/** Inner length and width of a box, cm, to the millimetre. */
const innerCm = (name: "innerLength" | "innerWidth") =>
  z
    .number({ error: `outing.${name}.number` })
    .min(5, { error: `outing.${name}.range` })
    .max(100, { error: `outing.${name}.range` })
    .multipleOf(0.1, { error: `outing.${name}.tooFine` });

const allDifferent = (items: readonly unknown[]) => new Set(items).size === items.length;

/**
 * An outing as a phone plans it: one grower (the sender), one site, one day, one kind of box, depth, cover and
 * guard. Box ids come from the phone, in the order the boxes stand. Every message is a key of the message catalogue.
 */
export const outingSchema = z.strictObject(
  {
    id: uuidV7,
    trialId: uuidV7,
    siteId: uuidV7,
    day: z.iso.date({ error: "outing.day.date" }),
    boxKind: z.enum(BOX_KINDS, { error: "outing.boxKind.unknown" }),
    innerLengthCm: innerCm("innerLength"),
    innerWidthCm: innerCm("innerWidth"),
    grainDepthCm: z
      .number({ error: "outing.grainDepth.number" })
      .min(0.5, { error: "outing.grainDepth.range" })
      .max(MAX_GRAIN_DEPTH_CM, { error: "outing.grainDepth.range" })
      .multipleOf(0.1, { error: "outing.grainDepth.tooFine" }),
    cover: z.enum(COVERS, { error: "outing.cover.unknown" }),
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
  },
  { error: "outing.fields" },
);

export type OutingInput = Readonly<z.infer<typeof outingSchema>>;
