import { z } from "zod";
import { hash256Schema, lowerCaseUuidSchema } from "./draw";

/** The files of a release beside its manifest. */
export const RELEASE_PARTS = [
  "rows.csv",
  "figures.json",
  "results.json",
  "methods.txt",
  "plan.json",
] as const;
export type ReleasePart = (typeof RELEASE_PARTS)[number];

const count = z.int().min(0);

/**
 * What a release is made of. Its SHA-256, of the canonical JSON (RFC 8785) it is served as, is the release's hash:
 * it covers every part by the part's own, the draws by the ledger's head, and the plan with its amendments by theirs.
 */
export const releaseManifestSchema = z.strictObject({
  form: z.literal("grainlot-release/1"),
  trial: z.strictObject({
    id: lowerCaseUuidSchema,
    slug: z.string(),
    title: z.string(),
    question: z.string(),
    /** Whether all of it is made up. */
    invented: z.boolean(),
    openedAt: z.iso.datetime(),
    closedAt: z.iso.datetime(),
  }),
  releasedAt: z.iso.datetime(),
  /** The engine the figures were worked out by, and the command that works them out again from rows.csv. */
  engine: z.string(),
  command: z.string(),
  planHash: hash256Schema,
  /** Hashes of the plan's amendments, first to last. */
  amendments: z.array(hash256Schema),
  seal: hash256Schema,
  ledger: z.strictObject({ draws: count, lastHash: hash256Schema }),
  /** Climate groups that had fewer than 3 growers and stand as one in the rows. */
  joinedGroups: z.strictObject({ code: z.string(), of: z.array(z.string()) }).nullable(),
  rests: z.strictObject({ growers: count, outings: count, boxes: count }),
  /** Boxes drawn, and how far they came; `cooked` isn't in releases made before 2026-11-25. */
  flow: z.strictObject({
    drawn: count,
    cooked: count.optional(),
    setOut: count,
    opened: count,
    recorded: count,
    lost: count,
  }),
  /** Lost boxes by what happened to them; a box may count under several. */
  losses: z.array(z.strictObject({ kind: z.string(), boxes: count })),
  parts: z.array(z.strictObject({ name: z.enum(RELEASE_PARTS), sha256: hash256Schema, bytes: count })),
});
export type ReleaseManifest = z.infer<typeof releaseManifestSchema>;
