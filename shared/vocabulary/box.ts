/** What the boxes of one outing are made of; one kind per outing. */
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

/** Whether the box holds what was drawn for it. What was otherwise is told in the note. */
export const COOKING_EVENTS = ["cooked-as-drawn", "cooked-otherwise", "not-cooked"] as const;

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

/** Deepest layer of grain in a box: about three inches, so that it stays aired (CTAHR BIO-9, from memory). */
export const MAX_GRAIN_DEPTH_CM = 7.5;

/** Why an outing was given up; it is counted, so it is a choice and not own words. */
export const ABANDON_REASONS = ["no-time", "grain-missing", "no-access", "weather", "other"] as const;
export type AbandonReason = (typeof ABANDON_REASONS)[number];
