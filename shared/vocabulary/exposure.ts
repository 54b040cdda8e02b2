/**
 * How warm the days were that a set stood out: degree-days above 5 °C in the five days from set-out, from one number up
 * to the next. At 15 °C throughout they come to 50, at 20 °C to 75. Codes sort from cool to warm.
 */
export const WARMTH_CLASSES = ["0-50", "50-75", "75-150"] as const;
export type WarmthClass = (typeof WARMTH_CLASSES)[number];
