import { type RandomSource, seededSource } from "@/lib/engine/random/source";
import type { PoolColumns } from "@/lib/engine/statistics/columns";
import { normalUpperTail } from "@/lib/engine/statistics/distributions";
import { columnsOf } from "./columns-of";

/**
 * An invented trial, unbalanced on purpose: growth 0–4 cut from a latent normal, 1–4 outings a grower of 2–6 boxes,
 * arms in random order, climate groups of shares 5:3:2, 8 % of boxes lost. Latent standard deviations: outing .5,
 * grower .5, box 1, grower × arm as given. A third of the growers lack the last arm's grain and have poorer places.
 */
export interface TrialTruth {
  readonly growers: number;
  readonly arms: number;
  readonly growerArmSd: number;
  /** Latent shift per arm; none where not given. */
  readonly armEffects?: readonly number[];
  /** Latent shift of the growers who lack the last arm; all have it where not given. */
  readonly poorerWithoutLast?: number;
}

const CUTS = [-1, -0.3, 0.4, 1.1] as const;
const OUTING_SD = 0.5;
const GROWER_SD = 0.5;
const LOST = 0.08;
/** The group that figures are read from is the largest one, 0. */
const BANDS = [
  { below: 0.5, shift: 0 },
  { below: 0.8, shift: 0.4 },
  { below: 1, shift: -0.3 },
] as const;

export interface Simulated {
  readonly columns: PoolColumns;
  /** A new grower of group 0 tries the first two arms in one set: growth of both, and its expectation. */
  readonly newGrower: () => { readonly observed: number; readonly expected: number };
}

export function simulateTrial(truth: TrialTruth, seed: string): Simulated {
  const source = seededSource(seed);
  const normal = normalsFrom(source);
  const rows: { grower: string; outing: string; band: string; arm: string; set: string; y: number | null }[] =
    [];
  for (let g = 0; g < truth.growers; g++) {
    const place = source.unit();
    const band = BANDS.findIndex(({ below }) => place < below);
    const poorer = truth.poorerWithoutLast !== undefined && source.unit() < 1 / 3;
    const level = BANDS[band]!.shift + GROWER_SD * normal() - (poorer ? truth.poorerWithoutLast! : 0);
    const liking = Array.from({ length: truth.arms }, () => truth.growerArmSd * normal());
    const atHand = Array.from({ length: truth.arms - Number(poorer) }, (_, arm) => arm);
    const outings = 1 + source.below(4);
    for (let o = 0; o < outings; o++) {
      const outing = OUTING_SD * normal();
      const boxes = 2 + source.below(5);
      const order = source.shuffle(atHand);
      for (let b = 0; b < boxes; b++) {
        const arm = order[b % order.length]!;
        const latent = level + (truth.armEffects?.[arm] ?? 0) + liking[arm]! + outing + normal();
        const lost = source.unit() < LOST;
        rows.push({
          grower: `g${g}`,
          outing: `g${g}o${o}`,
          band: `b${band}`,
          arm: `a${arm}`,
          set: poorer ? "some" : "all",
          y: lost ? null : growthOf(latent),
        });
      }
    }
  }
  const column = <K extends keyof (typeof rows)[number]>(key: K) => rows.map((row) => row[key]);
  return {
    columns: columnsOf({
      grower: column("grower"),
      outing: column("outing"),
      band: column("band"),
      arm: column("arm"),
      set: column("set"),
      y: column("y"),
    }),
    newGrower: () => {
      const level = GROWER_SD * normal();
      const own = [0, 1].map((arm) => level + (truth.armEffects?.[arm] ?? 0) + truth.growerArmSd * normal());
      const outing = OUTING_SD * normal();
      const [first, second] = own.map((latent) => growthOf(latent + outing + normal()));
      const [mean, other] = own.map((latent) =>
        CUTS.reduce<number>(
          (sum, cut) => sum + normalUpperTail((cut - latent) / Math.hypot(OUTING_SD, 1)),
          0,
        ),
      );
      return { observed: first! - second!, expected: mean! - other! };
    },
  };
}

function growthOf(latent: number): number {
  return CUTS.filter((cut) => latent > cut).length;
}

/** Standard normals by Box & Muller's transform (1958), two uniforms each. */
function normalsFrom(source: RandomSource): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - source.unit())) * Math.cos(2 * Math.PI * source.unit());
}
