/** What the boxes of one outing are made of, untreated and unpainted; one kind per outing. */
export const BOX_KINDS = ["softwood", "hardwood", "plywood", "bamboo", "basket", "cardboard"] as const;
export type BoxKind = (typeof BOX_KINDS)[number];

/** What lies over the grain. */
export const COVERS = ["paper", "cloth", "wooden-lid", "fine-mesh", "none"] as const;
export type Cover = (typeof COVERS)[number];

/** What keeps animals and rain off the box. */
export const GUARDS = ["none", "weighted", "wire-cage", "rain-roof", "wire-cage-and-roof"] as const;
export type Guard = (typeof GUARDS)[number];

/** Where a box is on its way. Readiness uses `opened`, not `fetched`. */
export const STAGE_EVENTS = ["set-out", "fetched", "opened"] as const;

/** Whether the box holds what was drawn for it. */
export const COOKING_EVENTS = ["cooked-as-drawn", "cooked-otherwise", "not-cooked"] as const;

/** In what a box cooked otherwise differs from what was drawn for it; several may hold. */
export const COOKING_DIFFERENCES = [
  "other-grain",
  "more-water",
  "less-water",
  "longer",
  "shorter",
  "burnt",
  "mixed-up",
  "other",
] as const;
export type CookingDifference = (typeof COOKING_DIFFERENCES)[number];

/** Why a box got no grain. `box-short`: there was one box less than planned. */
export const NOT_COOKED_REASONS = ["box-short", "grain-missing", "spoilt", "other"] as const;
export type NotCookedReason = (typeof NOT_COOKED_REASONS)[number];

/** What happened to the box; several may hold, each with its own time. `nothing-happened` is stated, never assumed. */
export const HAPPENING_EVENTS = [
  "nothing-happened",
  "animal",
  "person",
  "rain-inside",
  "cover-off",
  "moved",
  "looked-in",
  "label-gone",
] as const;

/** Whether growth could still be recorded, whatever else happened. */
export const RECORDABILITY_EVENTS = ["growth-recordable", "growth-not-recordable"] as const;

/** Why growth can't be recorded. The first two follow by themselves from an event and go when it is taken back. */
export const NOT_RECORDABLE_REASONS = [
  "not-cooked",
  "unidentified",
  "box-gone",
  "content-gone",
  "other",
] as const;
export type NotRecordableReason = (typeof NOT_RECORDABLE_REASONS)[number];

/** Takes an earlier event back without putting another in its place. */
export const WITHDRAWAL_EVENTS = ["withdrawal"] as const;

/** The three things of a box that are kept apart, its stages, and the withdrawal of an event told wrongly. */
export const BOX_EVENTS_BY_TOPIC = {
  stage: STAGE_EVENTS,
  cooking: COOKING_EVENTS,
  happening: HAPPENING_EVENTS,
  recordability: RECORDABILITY_EVENTS,
  withdrawal: WITHDRAWAL_EVENTS,
} as const;
export type BoxEventTopic = keyof typeof BOX_EVENTS_BY_TOPIC;
export type BoxEventKind = (typeof BOX_EVENTS_BY_TOPIC)[BoxEventTopic][number];

export const BOX_EVENT_KINDS = Object.values(BOX_EVENTS_BY_TOPIC).flat() as readonly BoxEventKind[];

/** Fewest and most boxes of one outing. */
export const OUTING_BOXES = { min: 2, max: 12 } as const;

/** Sets of one household in one trial that may be drawn without any of their boxes having been set out. */
export const MOST_SETS_NOT_SET_OUT = 4;

/** Deepest layer of grain in a box: about three inches, so that it stays aired (CTAHR BIO-9, from memory). */
export const MAX_GRAIN_DEPTH_CM = 7.5;
/** Thinnest layer that is worth weighing (common practice, no source). */
export const MIN_GRAIN_DEPTH_CM = 0.5;

/** Why an outing was given up; it is counted, so it is a choice and not own words. */
export const ABANDON_REASONS = ["no-time", "grain-missing", "no-access", "weather", "other"] as const;
export type AbandonReason = (typeof ABANDON_REASONS)[number];
