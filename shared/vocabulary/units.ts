/** One United States customary cup in millilitres, as the USDA cup weights are read (1 US gallon / 16). */
export const ML_PER_US_CUP = 236.588;

/** Density of kitchen water near 21 °C, in grams per millilitre. */
export const WATER_DENSITY_G_PER_ML = 0.998;

/** Smallest step a kitchen scale is trusted to, in grams. Common practice, no source. */
export const KITCHEN_SCALE_STEP_G = 5;
