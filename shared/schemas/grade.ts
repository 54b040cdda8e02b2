import { z } from "zod";
import {
  GROWTH_DEPTHS,
  type OffColour,
  SMELL_WORDS,
  TAKE_CLASSES,
  WARMTH,
  WETNESS,
} from "@/shared/vocabulary/growth";
import { momentSchema, noteSchema } from "./box-event";
import { uuidV7 } from "./id";
import { measureSchema } from "./measure";

/** Heaviest content of one box that is believed, in grams. */
const MAX_CONTENT_G = 50_000;

const measure = <T extends z.ZodType>(value: T) => measureSchema(value, "grade.measure.shape");

const percent = z
  .number({ error: "grade.percent.number" })
  .min(0, { error: "grade.percent.range" })
  .max(100, { error: "grade.percent.range" });

const grams = z
  .number({ error: "grade.grams.number" })
  .min(0, { error: "grade.grams.range" })
  .max(MAX_CONTENT_G, { error: "grade.grams.range" });

const smellWords = z
  .array(z.enum(SMELL_WORDS, { error: "grade.smell.unknown" }), { error: "grade.smell.list" })
  .min(1, { error: "grade.smell.empty" })
  .refine((words) => new Set(words).size === words.length, { error: "grade.smell.repeated" })
  .refine((words) => words.length === 1 || !words.includes("none"), { error: "grade.smell.noneStandsAlone" });

/**
 * What one person saw, in the rubric's terms, without free text. Per cents are shares of the grain surface.
 * `coverClass` is a picture picked, `coverPercent` a number typed; where both stand the number decides.
 */
export const gradeMeasuresSchema = z
  .strictObject(
    {
      coverPercent: measure(percent),
      coverClass: measure(z.literal(TAKE_CLASSES, { error: "grade.coverClass.unknown" })),
      offColourPercent: z.strictObject(
        {
          "blue-green": measure(percent),
          black: measure(percent),
          "yellow-orange": measure(percent),
          "pink-red": measure(percent),
        } satisfies Record<OffColour, unknown>,
        { error: "grade.offColour.fields" },
      ),
      depth: measure(z.enum(GROWTH_DEPTHS, { error: "grade.depth.unknown" })),
      wetness: measure(z.enum(WETNESS, { error: "grade.wetness.unknown" })),
      warmth: measure(z.enum(WARMTH, { error: "grade.warmth.unknown" })),
      smell: measure(smellWords),
      usableMassG: measure(grams),
      totalMassG: measure(grams),
    },
    { error: "grade.measures.fields" },
  )
  .refine(
    ({ usableMassG: usable, totalMassG: total }) =>
      !isValue(usable) || !isValue(total) || usable.value <= total.value,
    { path: ["usableMassG"], error: "grade.usableMass.overTotal" },
  );

export type GradeMeasures = Readonly<z.infer<typeof gradeMeasuresSchema>>;

/**
 * A grade as a phone sends it. Who graded and whether the grade is masked are the server's to say: a body that
 * names them is refused. `openedAt` is `null` where the grader was not at the box or the hour was not noted.
 * Every message is a key of the message catalogue.
 */
export const gradeSchema = z.strictObject(
  {
    id: uuidV7,
    boxId: uuidV7,
    measures: gradeMeasuresSchema,
    openedAt: momentSchema.nullable(),
    recordedAt: momentSchema,
    /** The revision a correction was made from; `null` for the first reading of the box. */
    basedOn: z.int({ error: "grade.basedOn.revision" }).min(1).nullable().default(null),
    note: noteSchema,
  },
  { error: "grade.fields" },
);

export type GradeInput = Readonly<z.infer<typeof gradeSchema>>;

function isValue<T>(measured: { value: T } | string | null): measured is { value: T } {
  return typeof measured === "object" && measured !== null;
}
