/** Molar masses, g/mol. */
const WATER_G_PER_MOL = 18.015;
const SUCROSE_G_PER_MOL = 342.3;

/** Norrish's constant for sucrose (Norrish 1966; the value of Chirife & Favetto, from memory). */
const NORRISH_K = 6.47;

/** Sucrose in a saturated solution at 25 °C, grams per gram of solution: about 67.5 % (from memory). */
export const SATURATED_SUCROSE_SHARE = 0.6747;

/**
 * Brown sugar, grams per gram (USDA SR 28: 97 % sugars, taken as sucrose, and 1.34 % water). White sugar holds more
 * sucrose and less water, so that brown sugar's figures keep an upper bound one.
 */
const BROWN_SUGAR = { sucrose: 0.97, water: 0.0134 } as const;

/**
 * Water activity (0–1) of sucrose in water by Norrish, `a_w = X_w exp(−K X_s²)` with mole fractions X.
 * @param sucroseShare grams of sucrose per gram of solution, 0–1 (1 excluded); throws RangeError outside
 */
export function sucroseWaterActivity(sucroseShare: number): number {
  if (!(sucroseShare >= 0 && sucroseShare < 1)) {
    throw new RangeError(`The sucrose of a solution is a share from 0 to below 1, not ${sucroseShare}.`);
  }
  const sucroseMol = sucroseShare / SUCROSE_G_PER_MOL;
  const waterMol = (1 - sucroseShare) / WATER_G_PER_MOL;
  const X_s = sucroseMol / (sucroseMol + waterMol);
  return (1 - X_s) * Math.exp(-NORRISH_K * X_s ** 2);
}

/** What goes into a jar from one box. */
export interface JarGrain {
  readonly massG: number;
  /** Of the cooked grain, wet basis, 0–1; as predicted from its recipe, the wetter end. */
  readonly moisture: number;
}

export interface SyrupEstimate {
  /** Grams of sucrose per gram of syrup, all sugar taken as dissolved: can be more than the water holds. */
  readonly sucroseShare: number;
  /** At most this: starch and salts, which are left out, lower it. Never below that of saturated syrup. */
  readonly waterActivityAtMost: number;
  /** There is more sugar than the water can dissolve; some stays as crystals. */
  readonly isSaturated: boolean;
}

/**
 * The syrup that sugar makes with the water of the grain, if all of it dissolves as sucrose, up to saturation. Starch
 * and salts are left out, so the water activity is an upper bound.
 * @returns null where there is neither sugar nor water
 */
export function syrupOf(grains: readonly JarGrain[], sugarMassG: number): SyrupEstimate | null {
  const grainWaterG = grains.reduce((sum, { massG, moisture }) => sum + massG * moisture, 0);
  const sucroseG = sugarMassG * BROWN_SUGAR.sucrose;
  const waterG = grainWaterG + sugarMassG * BROWN_SUGAR.water;
  if (!(sucroseG + waterG > 0)) return null;
  const sucroseShare = sucroseG / (sucroseG + waterG);
  const isSaturated = sucroseShare > SATURATED_SUCROSE_SHARE;
  return {
    sucroseShare,
    waterActivityAtMost: sucroseWaterActivity(isSaturated ? SATURATED_SUCROSE_SHARE : sucroseShare),
    isSaturated,
  };
}

/** Sugar for colonised grain, in grams: equal weights, at once (common practice, and University of Hawaiʻi CTAHR BIO-9, 2008). */
export function sugarForGrainG(grainMassG: number): number {
  return grainMassG;
}
