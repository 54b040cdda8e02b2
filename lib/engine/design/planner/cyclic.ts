import type { RandomSource } from "../../random/source";
import type { SetOfArms } from "./information";

/** Initial sets looked at for each choice; all of them where there are no more. */
const MOST_CANDIDATES = 3000;
/** After so many initial sets the design begins again. */
const MOST_INITIAL_SETS = 6;

/**
 * Cyclic sets: initial sets, each developed by adding 1 to every arm modulo v (John & Williams 1995, Cyclic and
 * Computer Generated Designs, ch. 3; from memory). Initial sets are chosen one after the other, each the one with the
 * highest average efficiency together with those before it.
 */
export function cyclicSets(arms: number, boxes: number, sets: number, random: RandomSource): SetOfArms[] {
  const initial = initialSets(arms, boxes, Math.min(MOST_INITIAL_SETS, Math.ceil(sets / arms)), random);
  return Array.from({ length: sets }, (_, s) => {
    const start = initial[Math.floor(s / arms) % initial.length]!;
    return start.map((arm) => (arm + s) % arms);
  });
}

/** The initial sets themselves, each beginning with arm 0. */
export function initialSets(
  arms: number,
  boxes: number,
  count: number,
  random: RandomSource,
): readonly SetOfArms[] {
  const candidates = candidateSets(arms, boxes, random);
  const cosines = Array.from({ length: arms }, (_, d) => Math.cos((2 * Math.PI * d) / arms));
  const chosen: SetOfArms[] = [];
  let concurrences = new Float64Array(arms);
  for (let step = 0; step < count; step++) {
    let best: { set: SetOfArms; together: Float64Array<ArrayBuffer>; efficiency: number } | null = null;
    for (const set of candidates) {
      const together = Float64Array.from(concurrences);
      for (const i of set) for (const j of set) together[(i - j + arms) % arms]! += 1;
      const efficiency = cyclicEfficiency(together, boxes, step + 1, cosines);
      if (best === null || efficiency > best.efficiency + 1e-12) best = { set, together, efficiency };
    }
    chosen.push(best!.set);
    concurrences = best!.together;
  }
  return chosen;
}

/** Harmonic mean of the circulant information matrix's v − 1 roots over r; 0 when a root is 0 (not connected). */
function cyclicEfficiency(
  concurrences: Float64Array,
  boxes: number,
  initialCount: number,
  cosines: readonly number[],
): number {
  const arms = concurrences.length;
  const r = initialCount * boxes;
  let inverses = 0;
  for (let j = 1; j < arms; j++) {
    let root = r;
    for (let d = 0; d < arms; d++) root -= (concurrences[d]! * cosines[(j * d) % arms]!) / boxes;
    if (root < 1e-9) return 0;
    inverses += r / root;
  }
  return (arms - 1) / inverses;
}

/** All sets of that size with arm 0, or a random choice of them when they are too many. */
function candidateSets(arms: number, boxes: number, random: RandomSource): readonly SetOfArms[] {
  const others = Array.from({ length: arms - 1 }, (_, i) => i + 1);
  if (chooseCount(arms - 1, boxes - 1) <= MOST_CANDIDATES) {
    return subsets(others, boxes - 1).map((rest) => [0, ...rest]);
  }
  return Array.from({ length: MOST_CANDIDATES }, () => {
    const rest = random.shuffle(others).slice(0, boxes - 1);
    return [0, ...rest.sort((a, b) => a - b)];
  });
}

/** How many subsets of `size` there are of `n` things. */
export function chooseCount(n: number, size: number): number {
  let count = 1;
  for (let i = 1; i <= size; i++) count = (count * (n - size + i)) / i;
  return Math.round(count);
}

/** All subsets of that size, in the items' order. */
export function subsets(items: readonly number[], size: number): number[][] {
  if (size === 0) return [[]];
  return items.flatMap((first, i) => subsets(items.slice(i + 1), size - 1).map((rest) => [first, ...rest]));
}
