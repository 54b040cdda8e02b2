/** How much of the sky the trees cover when they are in leaf. */
export const CANOPIES = ["none", "scattered", "broken", "closed"] as const;
export type Canopy = (typeof CANOPIES)[number];

/** White fungal threads seen where the litter is lifted. */
export const WHITE_THREADS = ["none", "few", "many"] as const;
export type WhiteThreads = (typeof WHITE_THREADS)[number];

/** The ground under the litter, felt with a gloved hand. */
export const GROUND_MOISTURES = ["dry", "moist", "wet"] as const;
export type GroundMoisture = (typeof GROUND_MOISTURES)[number];

/** Sun on the spot over a clear day. */
export const SUN_HOURS = ["shade", "some-hours", "most-of-day"] as const;
export type SunHours = (typeof SUN_HOURS)[number];

/** Deepest litter that is believed, in cm. */
export const MAX_LITTER_DEPTH_CM = 60;

/** By what right boxes stand at a place. */
export const PERMISSIONS = ["own-land", "asked-and-given", "allowed-by-rules", "not-yet"] as const;
export type Permission = (typeof PERMISSIONS)[number];

/** A permission counts for a season; then it is asked for again. */
export const PERMISSION_LASTS_DAYS = 180;
