import type { RandomSource } from "../../random/source";
import type { SetOfArms } from "./information";

/** Columns tried for each replicate. */
const TRIED_COLUMNS = 120;

/**
 * α-designs (Patterson & Williams 1976, Biometrika 63:83–92): v = ks arms; every s sets hold each arm once, so that a
 * grower with s sets meets every recipe. Arm i·s + x (i < k, x < s) stands in set (x − aᵢ) mod s of a replicate with
 * the column a; each replicate takes, of many random columns, the one whose concurrences have the least sum of
 * squares together with those before it.
 * @param boxes k < v, which divides v; else it throws
 */
export function resolvableSets(arms: number, boxes: number, sets: number, random: RandomSource): SetOfArms[] {
  if (arms % boxes !== 0 || arms === boxes) {
    throw new RangeError(`${arms} arms make no whole number of sets of ${boxes}.`);
  }
  const s = arms / boxes;
  /** `met[i·k + j][d]`: how often rows i and j differed by d. */
  const met = Array.from({ length: boxes * boxes }, () => new Array<number>(s).fill(0));
  const result: SetOfArms[] = [];
  while (result.length < sets) {
    const column = bestColumn(boxes, s, met, random);
    eachPair(column, s, (at, d) => {
      met[at]![d]! += 1;
    });
    for (let x = 0; x < s && result.length < sets; x++) {
      result.push(column.map((a, i) => i * s + ((x + a) % s)));
    }
  }
  return result;
}

function bestColumn(
  k: number,
  s: number,
  met: readonly (readonly number[])[],
  random: RandomSource,
): readonly number[] {
  let best: readonly number[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (let trial = 0; trial < TRIED_COLUMNS; trial++) {
    const column = Array.from({ length: k }, (_, i) => (i === 0 ? 0 : random.below(s)));
    let sum = 0;
    eachPair(column, s, (at, d) => {
      sum += met[at]![d]!;
    });
    if (sum < least) [best, least] = [column, sum];
  }
  return best;
}

function eachPair(column: readonly number[], s: number, visit: (at: number, d: number) => void): void {
  const k = column.length;
  for (let i = 0; i < k; i++) {
    for (let j = 0; j < i; j++) visit(i * k + j, (column[i]! - column[j]! + s) % s);
  }
}
