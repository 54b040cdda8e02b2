import type { Separability } from "@/shared/schemas/planner";
import type { SetOfArms } from "./information";

/** A grower's next set is picked from so many at the head of the design's sets. */
const WINDOW = 60;
/** Recipes in common with earlier sets that a grower who meets recipes again is to have: one tells nothing (below). */
const MET_AGAIN = 2;
/** With fewer degrees of freedom the residual variance is known to no better than ±32 % (√(2/20)): our choice. */
const LEAST_RESIDUAL_DF = 20;

/**
 * Deals a design's sets to growers. A grower's later sets have as few recipes in common with the earlier ones as the
 * next sets of the design allow; for the first `share` of growers, two in common.
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

/** Degrees of freedom within sets, counted over growers. */
export interface WithinSetDf {
  /** For arms, each grower's by itself: the sum of the ranks of the growers' own information. */
  readonly arms: number;
  /** For the residual alone: comparisons that a grower repeats. */
  readonly residual: number;
}

/**
 * Counts them: boxes less one per set, of which (arms met less groups of arms joined by the grower's sets) go to the
 * grower's differences between arms. A grower who meets one recipe again gains none; two recipes, one.
 */
export function withinSetDf(setsByGrower: readonly (readonly SetOfArms[])[]): WithinSetDf {
  let arms = 0;
  let residual = 0;
  for (const sets of setsByGrower) {
    const own = armDf(sets);
    arms += own;
    residual += sets.reduce((sum, set) => sum + set.length - 1, 0) - own;
  }
  return { arms, residual };
}

/** Arms met less the groups that the sets join them to. */
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

/** What telling grower × arm and residual apart rests on, counted over growers; counts of groups add up. */
export interface RepeatCounts {
  readonly growers: number;
  readonly meetingAgain: number;
  /** Residual degrees of freedom of the sets as dealt, and of the same design dealt with no recipe met on purpose. */
  readonly residualDf: number;
  readonly residualDfByItself: number;
  /** Sets that aren't their grower's first. */
  readonly laterSets: number;
}

export function repeatCounts(
  planned: readonly (readonly SetOfArms[])[],
  byItself: readonly (readonly SetOfArms[])[],
): RepeatCounts {
  return {
    growers: planned.length,
    meetingAgain: planned.filter(meetsAgain).length,
    residualDf: withinSetDf(planned).residual,
    residualDfByItself: withinSetDf(byItself).residual,
    laterSets: planned.reduce((sum, sets) => sum + sets.length - 1, 0),
  };
}

/**
 * Whether grower × arm and residual can be told apart, and which share of growers would have to meet two recipes again
 * in each later set.
 */
export function separabilityOf(counts: RepeatCounts): Separability {
  const missing = LEAST_RESIDUAL_DF - counts.residualDfByItself;
  const share = missing <= 0 ? 0 : missing / ((MET_AGAIN - 1) * counts.laterSets);
  return {
    growersMeetingAgain: counts.meetingAgain / counts.growers,
    residualDf: Math.round(counts.residualDf),
    separable: counts.residualDf >= LEAST_RESIDUAL_DF,
    shareNeeded: share <= 1 ? share : null,
  };
}

function meetsAgain(sets: readonly SetOfArms[]): boolean {
  const seen = new Set<number>();
  return sets.some((set) => {
    const again = set.some((arm) => seen.has(arm));
    for (const arm of set) seen.add(arm);
    return again;
  });
}
