/**
 * Grains a recipe may name: those with a water content and a cup weight in the USDA table
 * (`lib/reference/grains.ts`). Bulgur is in the table but not here: it is already cooked and broken when bought.
 */
export const GRAINS = [
  "amaranth",
  "barley-hulled",
  "barley-pearl",
  "brown-rice-long",
  "brown-rice-medium",
  "buckwheat",
  "buckwheat-roasted",
  "maize",
  "millet",
  "oats",
  "quinoa",
  "rye",
  "sorghum",
  "spelt",
  "teff",
  "triticale",
  "wheat-hard-spring",
  "wheat-hard-winter",
  "wheat-khorasan",
  "wheat-soft-white",
  "white-rice-long",
  "white-rice-parboiled",
  "wild-rice",
] as const;
export type GrainId = (typeof GRAINS)[number];

/** State of the kernel before it meets water. The reference cup weights are those of whole kernels only. */
export const GRAIN_FORMS = ["whole", "cracked", "flaked"] as const;
export type GrainForm = (typeof GRAIN_FORMS)[number];

/** What the water:grain ratio compares: grams with grams, or cups with cups. */
export const RATIO_BASES = ["mass", "volume"] as const;
export type RatioBasis = (typeof RATIO_BASES)[number];

/**
 * `absorption`: lid on, until the water is taken up. `boil-drain`: in plenty of water, the rest poured off.
 * `pour-over`: boiling water poured on, left to stand; its minutes are the standing time. `none`: not heated.
 */
export const COOK_METHODS = [
  "absorption",
  "rice-cooker",
  "pressure-cooker",
  "boil-drain",
  "steam",
  "pour-over",
  "none",
] as const;
export type CookMethod = (typeof COOK_METHODS)[number];

/** How the cooked grain loses its heat before it goes into the box. */
export const COOLING_WAYS = ["spread-thin", "open-pot", "closed-pot", "refrigerated", "cold-rinse"] as const;
export type CoolingWay = (typeof COOLING_WAYS)[number];

/** What is known of one grain from published tables; raw figures are those of whole kernels. */
export interface GrainFigures {
  readonly grain: GrainId;
  readonly rawNdbNo: string;
  /** Null where the table has no cooked entry for this grain. */
  readonly cookedNdbNo: string | null;
  /** Wet basis: grams of water per 100 g of raw grain. */
  readonly rawWaterGPer100G: number;
  readonly rawCupMassG: number;
  readonly rawBulkDensityGPerMl: number;
  /** Wet basis: grams of water per 100 g of cooked grain. */
  readonly cookedWaterGPer100G: number | null;
  readonly cookedCupMassG: number | null;
  readonly cookedBulkDensityGPerMl: number | null;
}
