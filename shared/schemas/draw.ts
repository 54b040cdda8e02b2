import { z } from "zod";

// Every message is a key of the message catalogue.

/** Boxes in one outing. */
export const BOXES_PER_OUTING = { min: 2, max: 12 } as const;

/** A short public name for an arm, grain, climate group or region: letters, digits, dot, dash, underscore. */
export const codeSchema = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,39}$/, { error: "code.form" });

/** A SHA-256, or any other 32 bytes, as 64 lower-case hex digits. */
export const hash256Schema = z.string().regex(/^[0-9a-f]{64}$/, { error: "hash.form" });

/** One form per id, so that an outing cannot come twice in different case. */
export const lowerCaseUuidSchema = z.uuid().lowercase();

/** The name of a draw rule, such as `grainlot-draw/2`. */
const algorithmSchema = z.string().regex(/^[a-z0-9][a-z0-9./-]{0,59}$/);

/** An arm as a draw meets it. */
const drawArmSchema = z
  .strictObject({
    code: codeSchema,
    grain: codeSchema,
    /** Boxes drawn for this arm in the outing's climate group by the trial's earlier draws; returns don't count. */
    drawnBefore: z.int().min(0),
  })
  .readonly();

/** Whether no text comes twice. */
export function allDifferent(values: readonly string[]): boolean {
  return new Set(values).size === values.length;
}

/**
 * What a draw rests on, as the public ledger carries it: pseudonyms only, no site, no clock time.
 * `arms` are all arms of the trial in the plan's order, whether or not their grain is at hand.
 */
export const drawInputsSchema = z
  .strictObject({
    outingId: lowerCaseUuidSchema,
    /** The household's pseudonym in this trial. */
    household: codeSchema,
    climateGroup: codeSchema,
    region: codeSchema,
    boxes: z.int().min(BOXES_PER_OUTING.min).max(BOXES_PER_OUTING.max),
    grainsAtHand: z.array(codeSchema).refine(allDifferent, { error: "draw.grains.repeated" }).readonly(),
    arms: z
      .array(drawArmSchema)
      .min(2)
      .refine((arms) => allDifferent(arms.map((arm) => arm.code)), { error: "arms.code.repeated" })
      .readonly(),
    /** HMAC-SHA-256 of the instant of commitment under a salt that stays private. */
    timeHash: hash256Schema,
    /** `outingId` of the household's earlier, abandoned set of boxes whose allocation this one receives. */
    returns: lowerCaseUuidSchema.optional(),
  })
  .readonly();
export type DrawInputs = z.infer<typeof drawInputsSchema>;

/** One box of the outing and the arm it got; positions run from 1. */
export const placementSchema = z.strictObject({ position: z.int().min(1), arm: codeSchema }).readonly();
export type Placement = z.infer<typeof placementSchema>;

/** One draw in a trial's ledger. `hash` is SHA-256 of the RFC 8785 JSON of all other members. */
export const ledgerEntrySchema = z
  .strictObject({
    /** 1 for the trial's first draw. */
    number: z.int().min(1),
    /** Names the rule that made the result, so that old draws can be replayed after the rule has changed. */
    algorithm: algorithmSchema,
    inputs: drawInputsSchema,
    result: z.array(placementSchema).min(1).readonly(),
    /** Whole days from set-out to the fetch that was drawn for this set, where the plan stages fetches. */
    fetchAfterDays: z.int().min(1).max(60).optional(),
    previousHash: hash256Schema,
    hash: hash256Schema,
  })
  .readonly();
export type LedgerEntry = z.infer<typeof ledgerEntrySchema>;

/** How far a ledger had come when this was published apart from it. No draws: `lastHash` is the chain's start. */
export const ledgerHeadSchema = z.strictObject({ draws: z.int().min(0), lastHash: hash256Schema }).readonly();
export type LedgerHead = z.infer<typeof ledgerHeadSchema>;

/** A head as it is published apart from the ledger, with the seal that says which trial's it is. */
export const publishedHeadSchema = z
  .strictObject({ seal: hash256Schema, ...ledgerHeadSchema.unwrap().shape })
  .readonly();
export type PublishedHead = z.infer<typeof publishedHeadSchema>;

/** What a grower keeps to show later that their draw still stands as it was made. */
export const drawReceiptSchema = z
  .strictObject({
    trialId: lowerCaseUuidSchema,
    number: z.int().min(1),
    algorithm: algorithmSchema,
    hash: hash256Schema,
    previousHash: hash256Schema,
    seal: hash256Schema,
    /** First and last 8 hex digits of `hash`, for paper. */
    shortHash: z.string().regex(/^[0-9a-f]{8}-[0-9a-f]{8}$/),
  })
  .readonly();
export type DrawReceipt = z.infer<typeof drawReceiptSchema>;
