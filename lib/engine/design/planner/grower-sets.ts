import type { SetOfArms } from "./information";

/** A grower's next set is picked from so many at the head of the design's sets. */
const WINDOW = 60;
/** Recipes in common with earlier sets that a set is to have which meets recipes again: as the draw does it. */
const MET_AGAIN = 1;

/**
 * Deals a design's sets to growers. A grower's later sets have as few recipes in common with the earlier ones as the
 * next sets of the design allow; for the first `share` of growers, one in common.
 */
export function dealSets(
  sets: readonly SetOfArms[],
  growers: number,
  setsPerGrower: number,
  share: number,
): SetOfArms[][] {
  const left = [...sets];
  const meetingAgain = Math.round(share * growers);
  return Array.from({ length: growers }, (_, g) => {
    const target = g < meetingAgain ? MET_AGAIN : 0;
    const own: SetOfArms[] = [];
    while (own.length < setsPerGrower && left.length > 0) {
      own.push(...left.splice(nearestOverlap(left, own.flat(), target), 1));
    }
    return own;
  });
}

function nearestOverlap(sets: readonly SetOfArms[], met: readonly number[], target: number): number {
  let best = 0;
  let gap = Number.POSITIVE_INFINITY;
  for (let s = 0; s < Math.min(WINDOW, sets.length) && gap > 0; s++) {
    const common = new Set(sets[s]!.filter((arm) => met.includes(arm))).size;
    // Too few in common misses the purpose, too many only wastes boxes.
    const distance = common < target ? 100 * (target - common) : common - target;
    if (distance < gap) [best, gap] = [s, distance];
  }
  return best;
}

/**
 * Degrees of freedom of the growers' own differences between arms: for each grower the rank of the information that its
 * sets hold, arms met less groups of arms that the sets join.
 */
export function ownDifferences(setsByGrower: readonly (readonly SetOfArms[])[]): number {
  return setsByGrower.reduce((sum, sets) => sum + armDf(sets), 0);
}

function armDf(sets: readonly SetOfArms[]): number {
  const parent = new Map<number, number>();
  const rootOf = (arm: number): number => {
    let at = arm;
    while (parent.get(at) !== at) at = parent.get(at)!;
    return at;
  };
  let joins = 0;
  for (const set of sets) {
    for (const arm of set) if (!parent.has(arm)) parent.set(arm, arm);
    const root = rootOf(set[0]!);
    for (const arm of set) {
      const other = rootOf(arm);
      if (other === rootOf(root)) continue;
      parent.set(other, rootOf(root));
      joins += 1;
    }
  }
  return joins;
}
