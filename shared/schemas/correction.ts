import { z } from "zod";
import { CORRECTION_KINDS } from "@/shared/vocabulary/desk";
import { keepableText } from "./text";

// Every message is a key of the message catalogue.

export const CORRECTION_MAX_LENGTH = 500;
export const HIDING_MAX_LENGTH = 300;

/** What a lead asks a grower to look at again; `other` needs own words. */
export const correctionSchema = z
  .strictObject({
    kind: z.enum(CORRECTION_KINDS, { error: "correction.kind" }),
    words: keepableText("correction.words").trim().max(CORRECTION_MAX_LENGTH, { error: "correction.long" }),
  })
  .refine(({ kind, words }) => kind !== "other" || words !== "", {
    path: ["words"],
    error: "correction.words",
  });
export type Correction = Readonly<z.infer<typeof correctionSchema>>;

/** Why own words or a picture are hidden; whoever wrote or took them reads it. */
export const hidingReasonSchema = keepableText("hiding.reason")
  .trim()
  .min(1, { error: "hiding.reason" })
  .max(HIDING_MAX_LENGTH, { error: "hiding.reason" });
