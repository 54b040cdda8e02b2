import { normalQuantile, normalUpperTail } from "./distributions";
import { increasingRoot } from "./root";

export interface Look {
  /** Share of the planned information at this look, 0–1. */
  readonly fraction: number;
  /** Chance of a false alarm spent up to and with this look. */
  readonly spent: number;
  /** A |z| at or above this is a difference. Infinity where nothing can be spent. */
  readonly boundary: number;
  /** Confidence level of the interval estimate ± boundary · se: 1 − 2 P(Z > boundary). */
  readonly level: number;
}

/** Below this a look's share of the error is nothing: its boundary would lie beyond z = 11. */
const LEAST_SPENT = 1e-28;

/**
 * Chance of a false alarm that may be spent up to information fraction t by the O'Brien–Fleming-type function of Lan
 * & DeMets (1983, Biometrika 70:659–663), half of `alpha` on either side: 4 P(Z > z_{1−α/4}/√t); all of it from
 * t = 1 on, nothing at t ≤ 0.
 */
export function obrienFlemingSpent(fraction: number, alpha: number): number {
  if (fraction <= 0) return 0;
  if (fraction >= 1) return alpha;
  return 4 * normalUpperTail(normalQuantile(1 - alpha / 4) / Math.sqrt(fraction));
}

/**
 * The two-sided boundary at every look of a trial watched at the given information `fractions` (rising, in (0, 1],
 * any number of looks, whether planned or not), spending `alpha` in all: each look's chance of crossing without
 * an earlier crossing is what the spending function adds. Found by recursive numerical integration of the density of
 * the score process (Armitage, McPherson & Rowe 1969, JRSS A 132:235–244). Throws when fractions don't rise.
 */
export function spendingLooks(fractions: readonly number[], alpha: number): Look[] {
  let earlier: ScoreDensity | null = null;
  let [lastFraction, lastSpent] = [0, 0];
  return fractions.map((fraction) => {
    if (!(fraction > lastFraction && fraction <= 1))
      throw new RangeError(`Information fractions rise within 0–1; ${fraction} follows ${lastFraction}.`);
    const spent = obrienFlemingSpent(fraction, alpha);
    const added = spent - lastSpent;
    const increment = Math.sqrt(fraction - lastFraction);
    const leaves: (bound: number) => number = crossing(earlier, increment);
    const boundary = added < LEAST_SPENT ? Infinity : boundaryFor(leaves, added, Math.sqrt(fraction));
    earlier = advance(earlier, increment, Math.min(boundary, 12) * Math.sqrt(fraction));
    [lastFraction, lastSpent] = [fraction, spent];
    return { fraction, spent, boundary, level: 1 - 2 * normalUpperTail(boundary) };
  });
}

/** The z whose bound z√t is crossed with the chance `added`. */
function boundaryFor(leaves: (bound: number) => number, added: number, rootT: number): number {
  return increasingRoot((z) => Math.log(added) - Math.log(leaves(z * rootT)), 0, 12);
}

/** Density of the score W(t) (variance t under no difference) over the range where no look has stopped. */
interface ScoreDensity {
  readonly nodes: readonly number[];
  /** Quadrature weight · density at each node. */
  readonly mass: readonly number[];
}

/** P(|W| ≥ bound at this look, and no earlier crossing); null density: the first look. */
function crossing(density: ScoreDensity | null, increment: number): (bound: number) => number {
  if (density === null) return (bound) => 2 * normalUpperTail(bound / increment);
  return (bound) =>
    density.nodes.reduce((sum, w, i) => {
      const out = normalUpperTail((bound - w) / increment) + normalUpperTail((bound + w) / increment);
      return sum + density.mass[i]! * out;
    }, 0);
}

/** The density after a step of standard deviation `increment`, cut off at ±`bound`. */
function advance(density: ScoreDensity | null, increment: number, bound: number): ScoreDensity {
  const { nodes, weights } = legendrePanels(-bound, bound, increment);
  const phi = (w: number): number =>
    Math.exp(-((w / increment) ** 2) / 2) / (Math.sqrt(2 * Math.PI) * increment);
  const mass = nodes.map((w, i) => {
    const before = density ?? { nodes: [0], mass: [1] };
    return weights[i]! * before.nodes.reduce((sum, v, j) => sum + before.mass[j]! * phi(w - v), 0);
  });
  return { nodes, mass };
}

/** Positive nodes and weights of the eight-point Gauss–Legendre rule (Abramowitz & Stegun 1964, table 25.4). */
const LEGENDRE = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
] as const;

/** Eight-point rules on equal panels no wider than two standard deviations of the kernel. */
function legendrePanels(from: number, to: number, sd: number): { nodes: number[]; weights: number[] } {
  const panels = Math.max(4, Math.ceil((to - from) / (2 * sd)));
  const half = (to - from) / panels / 2;
  const nodes: number[] = [];
  const weights: number[] = [];
  for (let panel = 0; panel < panels; panel++) {
    const middle = from + (2 * panel + 1) * half;
    for (const [x, weight] of LEGENDRE) {
      nodes.push(middle - x * half, middle + x * half);
      weights.push(weight * half, weight * half);
    }
  }
  return { nodes, weights };
}
