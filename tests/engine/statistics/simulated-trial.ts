import { type RandomSource, seededSource } from "@/lib/engine/random/source";
import { normalUpperTail } from "@/lib/engine/statistics/distributions";
import type { PoolRow } from "@/shared/schemas/pool";

/**
 * An invented trial, unbalanced on purpose: growth 0–4 cut from a latent normal; 1–4 outings a grower, 2–6 boxes
 * an outing, climate groups of shares 5:3:2, a share of boxes lost. Latent standard deviations: outing .5,
 * grower .5, box 1, and grower × arm as given.
 */
export interface SimulatedTrial {
  readonly growers: number;
  readonly arms: number;
  readonly growerArmSd: number;
  /** Latent shift of each arm; all 0 where not given. */
  readonly armEffects?: readonly number[];
  /** The same by climate group, instead of `armEffects`. */
  readonly bandArmEffects?: Readonly<Record<SimulatedBand, readonly number[]>>;
  readonly lossShare?: number;
  /** Share lost by arm, instead of `lossShare`. */
  readonly armLossShares?: readonly number[];
  /** Standard deviation of the log odds of a loss over growers, and as much again over grower × arm. */
  readonly growerLossSd?: number;
}

export type SimulatedBand = (typeof BAND_SHARES)[number]["band"];

const BAND_SHARES = [
  { band: "Csb", below: 0.5, shift: 0 },
  { band: "Cfb", below: 0.8, shift: 0.4 },
  { band: "Csa", below: 1, shift: -0.3 },
] as const;
/** Growth is the number of these the latent value exceeds. */
const CUTS = [-1, -0.3, 0.4, 1.1] as const;
const OUTING_SD = 0.5;
const GROWER_SD = 0.5;
export const DEFAULT_LOSS_SHARE = 0.08;

export function simulateTrial(trial: SimulatedTrial, seed: string): PoolRow[] {
  const source = seededSource(seed);
  const normal = normalsFrom(source);
  const rows: PoolRow[] = [];
  for (let g = 0; g < trial.growers; g++) {
    const place = source.unit();
    const { band, shift } = BAND_SHARES.find(({ below }) => place < below)!;
    const growerEffect = GROWER_SD * normal();
    const liking = Array.from({ length: trial.arms }, () => trial.growerArmSd * normal());
    const lossShareOf = growerLossShares(trial, normal);
    const outings = 1 + source.below(4);
    for (let o = 0; o < outings; o++) {
      const outingEffect = OUTING_SD * normal();
      const boxes = 2 + source.below(5);
      const order = source.shuffle(Array.from({ length: trial.arms }, (_, arm) => arm));
      for (let b = 0; b < boxes; b++) {
        const arm = order[b % trial.arms]!;
        const growth = growthOf(
          shift + effectOf(trial, band, arm) + growerEffect + liking[arm]! + outingEffect + normal(),
        );
        const lost = source.unit() < lossShareOf(arm);
        rows.push({
          grower: `g${g}`,
          outing: `g${g}o${o}`,
          band,
          arm: `arm${arm}`,
          outcome: lost ? null : growth,
          cleanTake: lost ? null : growth >= 3,
          status: lost ? "lost" : "graded",
        });
      }
    }
  }
  return rows;
}

/** One grower's share of lost boxes by arm. */
function growerLossShares(trial: SimulatedTrial, normal: () => number): (arm: number) => number {
  const { armLossShares, growerLossSd: sd, lossShare = DEFAULT_LOSS_SHARE } = trial;
  const typical = (arm: number): number => armLossShares?.[arm] ?? lossShare;
  if (sd === undefined) return typical;
  const shift = sd * normal();
  const own = Array.from({ length: trial.arms }, () => shift + sd * normal());
  return (arm) => {
    const odds = (typical(arm) / (1 - typical(arm))) * Math.exp(own[arm]!);
    return odds / (1 + odds);
  };
}

/** What the grower mean interval should cover in a band: E(growth) = Σ P(latent > cut), the latent being normal. */
export function trueMeanGrowth(trial: SimulatedTrial, arm: number, band: SimulatedBand): number {
  return CUTS.reduce<number>((sum, cut) => sum + exceeds(trial, arm, band, cut), 0);
}

/** The true share of boxes with growth 3 or 4. */
export function trueCleanShare(trial: SimulatedTrial, arm: number, band: SimulatedBand): number {
  return exceeds(trial, arm, band, CUTS[2]);
}

function exceeds(trial: SimulatedTrial, arm: number, band: SimulatedBand, cut: number): number {
  const sd = Math.sqrt(GROWER_SD ** 2 + OUTING_SD ** 2 + trial.growerArmSd ** 2 + 1);
  return normalUpperTail((cut - shiftOf(band) - effectOf(trial, band, arm)) / sd);
}

/** A new grower's difference first − second in growth: of one box each in one set, and expected over many sets. */
export function newGrowerDifference(
  trial: SimulatedTrial,
  band: SimulatedBand,
  [first, second]: readonly [number, number],
  normal: () => number,
): { readonly oneSet: number; readonly expected: number } {
  const level = shiftOf(band) + GROWER_SD * normal();
  const own = [first, second].map((arm) => level + effectOf(trial, band, arm) + trial.growerArmSd * normal());
  const outingEffect = OUTING_SD * normal();
  const [a, b] = own.map((latent) => growthOf(latent + outingEffect + normal()));
  const [meanA, meanB] = own.map((latent) =>
    CUTS.reduce<number>((sum, cut) => sum + normalUpperTail((cut - latent) / Math.hypot(OUTING_SD, 1)), 0),
  );
  return { oneSet: a! - b!, expected: meanA! - meanB! };
}

function effectOf({ armEffects, bandArmEffects }: SimulatedTrial, band: SimulatedBand, arm: number): number {
  return (bandArmEffects?.[band] ?? armEffects)?.[arm] ?? 0;
}

function shiftOf(band: SimulatedBand): number {
  return BAND_SHARES.find((share) => share.band === band)!.shift;
}

function growthOf(latent: number): number {
  return CUTS.filter((cut) => latent > cut).length;
}

/** Standard normals by Box & Muller's transform (1958), two uniforms each. */
export function normalsFrom(source: RandomSource): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - source.unit())) * Math.cos(2 * Math.PI * source.unit());
}
