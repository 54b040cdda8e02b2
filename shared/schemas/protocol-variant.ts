import { z } from "zod";
import { COOK_METHODS, COOLING_WAYS, GRAIN_FORMS, GRAINS, RATIO_BASES } from "@/shared/vocabulary/grain";

/**
 * Content of a protocol variant: one way of preparing grain. The box is no part of it.
 *
 * `waterToGrain` is the water in the pot per raw dry grain, in grams per gram or cups per cup by `ratioBasis`.
 * What the grain takes up while it is rinsed or soaked is not in it. `cookMinutes` is 0 for `none` and only then.
 * Every message is a key of the message catalogue.
 */
export const variantContentSchema = z
  .strictObject(
    {
      grain: z.enum(GRAINS, { error: "variant.grain.unknown" }),
      form: z.enum(GRAIN_FORMS, { error: "variant.form.unknown" }),
      rinsed: z.boolean({ error: "variant.rinsed.choice" }),
      soakHours: z
        .number({ error: "variant.soakHours.number" })
        .min(0, { error: "variant.soakHours.range" })
        .max(48, { error: "variant.soakHours.range" }),
      waterToGrain: z
        .number({ error: "variant.waterToGrain.number" })
        .min(0.2, { error: "variant.waterToGrain.range" })
        .max(5, { error: "variant.waterToGrain.range" }),
      ratioBasis: z.enum(RATIO_BASES, { error: "variant.ratioBasis.unknown" }),
      cookMethod: z.enum(COOK_METHODS, { error: "variant.cookMethod.unknown" }),
      cookMinutes: z
        .int({ error: "variant.cookMinutes.whole" })
        .min(0, { error: "variant.cookMinutes.range" })
        .max(180, { error: "variant.cookMinutes.range" }),
      cooling: z.enum(COOLING_WAYS, { error: "variant.cooling.unknown" }),
    },
    { error: "variant.fields" },
  )
  .refine((content) => (content.cookMethod === "none") === (content.cookMinutes === 0), {
    path: ["cookMinutes"],
    error: "variant.cookMinutes.method",
  });

export type VariantContent = Readonly<z.infer<typeof variantContentSchema>>;
