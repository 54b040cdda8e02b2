import { z } from "zod";
import { hash256Schema, ledgerEntrySchema, lowerCaseUuidSchema } from "./draw";
import { offlineDesignSchema } from "./offline-design";
import { storedPlanSchema } from "./plan";

/** What names this form of ledger file. */
export const LEDGER_FORM = "grainlot-ledger/1";

/** What the draws of a ledger were promised to follow: a trial's plan, or the design of draws made off line. */
const ledgerPlanSchema = z.union([storedPlanSchema, offlineDesignSchema]);
export type LedgerPlan = z.infer<typeof ledgerPlanSchema>;

/** A trial's whole ledger as anybody can take it away and check it, with `grainlot verify` or without us. */
export const ledgerFileSchema = z
  .strictObject({
    form: z.literal(LEDGER_FORM),
    /** The title is for readers; no hash covers it. */
    trial: z.strictObject({ id: lowerCaseUuidSchema, title: z.string().max(300) }),
    plan: ledgerPlanSchema,
    /** SHA-256 of the plan's RFC 8785 JSON, as published at opening. */
    planHash: hash256Schema,
    /** SHA-256 of the secret's 32 bytes, as published at opening. */
    seal: hash256Schema,
    /** The secret's 32 bytes in hex once the trial has closed; null until then. */
    secret: hash256Schema.nullable(),
    entries: z.array(ledgerEntrySchema).readonly(),
  })
  .readonly();
export type LedgerFile = z.infer<typeof ledgerFileSchema>;
