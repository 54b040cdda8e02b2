import { z } from "zod";
import {
  CANOPIES,
  GROUND_MOISTURES,
  MAX_LITTER_DEPTH_CM,
  SUN_HOURS,
  WHITE_THREADS,
} from "@/shared/vocabulary/place";
import { measureSchema } from "./measure";

const litterDepth = z
  .number({ error: "site.litterDepth.number" })
  .min(0, { error: "site.litterDepth.range" })
  .max(MAX_LITTER_DEPTH_CM, { error: "site.litterDepth.range" });

/** One of a closed list, or a reason for none; left out is unanswered. */
const choice = <const Words extends readonly string[]>(words: Words) =>
  measureSchema(z.enum(words, { error: "site.trait.unknown" }), "site.trait.unknown").default(null);

/**
 * What a place is like, without words and without whereabouts: it stays when its owner leaves. Depth of the litter
 * in cm. Every message is a key of the message catalogue.
 */
export const siteTraitsSchema = z.strictObject(
  {
    canopy: choice(CANOPIES),
    litterDepthCm: measureSchema(litterDepth, "site.litterDepth.number").default(null),
    whiteThreads: choice(WHITE_THREADS),
    groundMoisture: choice(GROUND_MOISTURES),
    sun: choice(SUN_HOURS),
  },
  { error: "site.fields" },
);

export type SiteTraits = Readonly<z.infer<typeof siteTraitsSchema>>;
