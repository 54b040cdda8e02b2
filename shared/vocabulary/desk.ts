/** Why a trial stands still for a while; a code and not own words, as everyone can read it. */
export const PAUSE_REASONS = ["fire", "drought", "storm", "no-access", "other"] as const;
export type PauseReason = (typeof PAUSE_REASONS)[number];

/** What a lead asks a grower to look at again in a box's record. */
export const CORRECTION_KINDS = ["grams", "per-cent", "times", "no-record", "other"] as const;
export type CorrectionKind = (typeof CORRECTION_KINDS)[number];

/** How a request ends: something new was recorded of the box, or its grower says that the record stands. */
export const CORRECTION_ANSWERS = ["recorded-anew", "stands"] as const;
export type CorrectionAnswer = (typeof CORRECTION_ANSWERS)[number];

/**
 * Groups of a trial's households by where they stand, each the audience of a letter. A household may be in several.
 * - `no-place`: no place in a climate group of the trial;
 * - `not-set-out`: a place, but no box out in the woods yet;
 * - `drawn-only`: a set whose recipes are picked, none of whose boxes is out;
 * - `overdue`: a set that should have been fetched by now;
 * - `unrecorded`: boxes fetched or opened whose growth isn't recorded;
 * - `gave-up`: a set given up.
 */
export const PEOPLE_GROUPS = [
  "no-place",
  "not-set-out",
  "drawn-only",
  "overdue",
  "unrecorded",
  "gave-up",
] as const;
export type PeopleGroup = (typeof PEOPLE_GROUPS)[number];

/** What makes a box's record look odd, each with what its grower would be asked about. */
export const ODD_SIGNS = {
  /** Its content weighs more than its box can hold. */
  "too-heavy": "grams",
  /** Usable grain of a box without any growth. */
  "usable-without-growth": "grams",
  /** The picture picked and the per cent typed are of different classes. */
  "picture-differs": "per-cent",
  /** Cover and other colours together are more than the whole surface. */
  "over-hundred": "per-cent",
  /** Fetched before it was set out, or opened before it was set out or fetched. */
  "times-order": "times",
  /** Opened days ago, and neither recorded nor said to be past recording. */
  "not-recorded": "no-record",
} as const satisfies Record<string, CorrectionKind>;
export type OddSign = keyof typeof ODD_SIGNS;

/** What a lead can hide from everyone but whoever wrote or took it. */
export const HIDEABLE_KINDS = ["words", "picture"] as const;
export type HideableKind = (typeof HIDEABLE_KINDS)[number];
