/** Why a measure has no value although the person was asked. There is no preset: unanswered is `null`. */
export const UNMEASURED = ["not_measured", "cant_tell"] as const;
export type Unmeasured = (typeof UNMEASURED)[number];

/** One answer of a grade: a value, a stated reason for none, or `null` where nobody answered. */
export type Measure<T> = { readonly value: T } | Unmeasured | null;

/**
 * Classes of cover (share of the grain surface under white or grey growth), boundaries of ASTM G21:
 * 0 none; 1 below 10 %; 2 from 10 to below 30 %; 3 from 30 to 60 %; 4 above 60 %.
 */
export const TAKE_CLASSES = [0, 1, 2, 3, 4] as const;
export type TakeClass = (typeof TAKE_CLASSES)[number];

/** Growth that is neither white nor grey. The finer colours are common practice, no source. */
export const OFF_COLOURS = ["blue-green", "black", "yellow-orange", "pink-red"] as const;
export type OffColour = (typeof OFF_COLOURS)[number];

/** How far the growth reaches. */
export const GROWTH_DEPTHS = ["none", "surface", "between-grains", "through", "up-the-walls"] as const;
export type GrowthDepth = (typeof GROWTH_DEPTHS)[number];

/** Wetness of the grain when the box is opened. */
export const WETNESS = ["dry", "moist", "wet", "standing-water"] as const;
export type Wetness = (typeof WETNESS)[number];

/** Warmth felt at the box against its surroundings. */
export const WARMTH = ["colder", "same", "warmer", "hot"] as const;
export type Warmth = (typeof WARMTH)[number];

/** Smells noticed without sniffing on purpose; several may hold. `none` stands alone. */
export const SMELL_WORDS = [
  "none",
  "mushroom",
  "earthy",
  "sweet",
  "yeasty",
  "sour",
  "ammonia",
  "rotten",
] as const;
export type SmellWord = (typeof SMELL_WORDS)[number];
