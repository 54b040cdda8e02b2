import { z } from "zod";
import { hash256Schema, lowerCaseUuidSchema } from "./draw";
import { keepableText } from "./text";

// Every message is a key of the message catalogue.

export const REASON_MAX_LENGTH = 500;
export const CLARIFICATION_MAX_LENGTH = 1000;

/** What an amendment changes in an open trial's plan: its last day, the boxes it ends at, or words only. */
export const planChangeSchema = z.union([
  z.strictObject({
    /** The new last day, `YYYY-MM-DD`. */
    endsOn: z.iso.date({ error: "plan.endsOn.form" }),
  }),
  z.strictObject({
    /** The trial also ends when so many boxes have been recorded. */
    endsAtBoxes: z
      .int({ error: "plan.endsAtBoxes" })
      .min(1, { error: "plan.endsAtBoxes" })
      .max(1_000_000, { error: "plan.endsAtBoxes" }),
  }),
  z.strictObject({
    /** How something in the plan is to be read; nothing that the plan fixes changes by it. */
    clarification: keepableText("amendment.clarification")
      .trim()
      .min(1, { error: "amendment.clarification" })
      .max(CLARIFICATION_MAX_LENGTH, { error: "amendment.clarification" }),
  }),
]);
export type PlanChange = Readonly<z.infer<typeof planChangeSchema>>;

/** An amendment as its lead asks for it. */
export const amendmentRequestSchema = z.strictObject({
  change: planChangeSchema,
  reason: keepableText("amendment.reason")
    .trim()
    .min(1, { error: "amendment.reason" })
    .max(REASON_MAX_LENGTH, { error: "amendment.reason" }),
});

/** An amendment as anyone may read it. `hash` is SHA-256 of the RFC 8785 JSON of all other members. */
export const planAmendmentSchema = z.strictObject({
  trialId: lowerCaseUuidSchema,
  /** 1 for the trial's first. */
  number: z.int().min(1),
  /** ISO 8601 in UTC. */
  madeAt: z.iso.datetime(),
  change: planChangeSchema,
  reason: z.string().min(1).max(REASON_MAX_LENGTH),
  /** The plan's hash for the first amendment, else the hash of the one before. */
  previousHash: hash256Schema,
  hash: hash256Schema,
});
export type PlanAmendment = Readonly<z.infer<typeof planAmendmentSchema>>;
