import { mostInformative } from "@/lib/engine/design/rule-2";
import { drawSource, type RandomSource, seededSource } from "@/lib/engine/random/source";
import { chiSquareOfEqualCells } from "@/tests/engine/random/chi-square";
import { ARMS, type Arrival, arrivals, type Block, drawTrial, GROUPS } from "./draw-arrivals";

/**
 * Randomisation test of one climate group's 40 outings whose outcomes are fixed and owe nothing to the arms: p is
 * the share of re-drawn trials (each with a secret of its own) whose arm totals lie as far apart or farther.
 * @returns χ² of the p of `observed` further draws over 20 equal cells (19 df) and the share of them up to 0.05.
 */
export function randomisationTest(
  redraws: number,
  observed: number,
): { chiSquare: number; upToFive: number } {
  const random = seededSource("outcomes");
  const outings = arrivals(random).filter(({ climateGroup }) => climateGroup === GROUPS[0]);
  const outcomes = outings.map(({ boxes }, at) => {
    // Skewed, and drifting over the season, so that no normal theory could help.
    const season = at / outings.length;
    const ofOuting = random.unit();
    return Array.from({ length: boxes }, () => season + ofOuting + random.unit() ** 3);
  });
  const reference = Array.from({ length: redraws }, () => statistic(redrawn(outings, random), outcomes)).sort(
    (a, b) => b - a,
  );
  const ps = Array.from({ length: observed }, () => {
    const value = statistic(redrawn(outings, random), outcomes);
    return (1 + countAtLeast(reference, value)) / (redraws + 1);
  });
  const cells = new Array<number>(20).fill(0);
  for (const p of ps) cells[Math.min(19, Math.floor(p * 20))]! += 1;
  return { chiSquare: chiSquareOfEqualCells(cells), upToFive: ps.filter((p) => p <= 0.05).length / observed };
}

/** The outings drawn anew, one after the other, under a fresh secret and by the source that draws have. */
function redrawn(outings: readonly Arrival[], random: RandomSource): Block[] {
  const bytes = Array.from({ length: 32 }, () => random.below(256).toString(16).padStart(2, "0"));
  let drawNumber = 0;
  return drawTrial(mostInformative, outings, () => {
    drawNumber += 1;
    return drawSource({ secretHex: bytes.join(""), trialId: "t", drawNumber });
  });
}

/** Σ over arms of (total of outcomes less their outing's mean)². */
function statistic(blocks: readonly Block[], outcomes: readonly (readonly number[])[]): number {
  const totals = ARMS.map(() => 0);
  for (const [at, block] of blocks.entries()) {
    const mean = outcomes[at]!.reduce((sum, y) => sum + y, 0) / block.length;
    for (const [box, arm] of block.entries()) totals[arm]! += outcomes[at]![box]! - mean;
  }
  return totals.reduce((sum, total) => sum + total * total, 0);
}

/** @param falling sorted from the largest down. */
function countAtLeast(falling: readonly number[], value: number): number {
  let low = 0;
  let high = falling.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (falling[middle]! >= value) low = middle + 1;
    else high = middle;
  }
  return low;
}
