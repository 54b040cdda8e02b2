import type { RandomSource } from "../../random/source";
import { informationOf, pairVariances, type SetOfArms } from "./information";

const STARTS = 2;
/** Exchanges tried on the concurrences, per box, within limits. */
const SWAPS_PER_BOX = 30;
const SWAPS = { min: 4000, max: 30_000 } as const;
/** Exchanges tried on the variance itself, where so few sets leave it something to gain. */
const FINE_SWAPS = 200;
const FINE_SETS = 150;

/**
 * Sets of k < v different arms found by exchanging arms between sets: first for the least sum of squared concurrences
 * with equal replication (M,S-optimality, Eccleston & Hedayat 1974, Annals of Statistics 2:1238–1255), from several
 * random starts, then the best of them for the least mean pairwise variance.
 */
export function optimisedSets(arms: number, boxes: number, sets: number, random: RandomSource): SetOfArms[] {
  let best: number[][] = [];
  let least = Number.POSITIVE_INFINITY;
  for (let start = 0; start < STARTS; start++) {
    const tried = evenSets(arms, boxes, sets, random);
    evenConcurrences(tried, arms, random);
    const variance = meanVariance(tried, arms);
    if (best.length === 0 || variance < least) [best, least] = [tried, variance];
  }
  if (sets <= FINE_SETS) refine(best, arms, least, random);
  return best;
}

/** Each set takes the arms used least so far, by chance among equals. */
function evenSets(arms: number, boxes: number, sets: number, random: RandomSource): number[][] {
  const used = new Array<number>(arms).fill(0);
  return Array.from({ length: sets }, () => {
    const order = random.shuffle([...used.keys()]).sort((a, b) => used[a]! - used[b]!);
    const set = order.slice(0, boxes);
    for (const arm of set) used[arm]! += 1;
    return set;
  });
}

/** An exchange of the arm at `place` of one set with the arm at `otherPlace` of another. */
interface Exchange {
  readonly set: number[];
  readonly place: number;
  readonly other: number[];
  readonly otherPlace: number;
}

/** A random exchange that puts no arm twice into a set; null when the one tried would. */
function randomExchange(sets: readonly number[][], random: RandomSource): Exchange | null {
  const set = sets[random.below(sets.length)]!;
  const other = sets[random.below(sets.length)]!;
  const place = random.below(set.length);
  const otherPlace = random.below(other.length);
  if (set.includes(other[otherPlace]!) || other.includes(set[place]!)) return null;
  return { set, place, other, otherPlace };
}

function exchange({ set, place, other, otherPlace }: Exchange): void {
  [set[place], other[otherPlace]] = [other[otherPlace]!, set[place]!];
}

function evenConcurrences(sets: readonly number[][], arms: number, random: RandomSource): void {
  const together = new Int32Array(arms * arms);
  for (const set of sets) for (const i of set) for (const j of set) together[i * arms + j]! += 1;
  const boxes = sets.length * sets[0]!.length;
  const tries = Math.min(SWAPS.max, Math.max(SWAPS.min, boxes * SWAPS_PER_BOX));
  for (let step = 0; step < tries; step++) {
    const tried = randomExchange(sets, random);
    if (tried === null) continue;
    if (moveConcurrences(together, arms, tried) <= 0) exchange(tried);
    else moveConcurrences(together, arms, { ...tried, set: swapped(tried), other: swappedOther(tried) });
  }
}

function swapped({ set, place, other, otherPlace }: Exchange): number[] {
  return set.with(place, other[otherPlace]!);
}

function swappedOther({ set, place, other, otherPlace }: Exchange): number[] {
  return other.with(otherPlace, set[place]!);
}

/** Carries the exchange into the concurrences and gives the change of their sum of squares (each pair once). */
function moveConcurrences(
  together: Int32Array,
  arms: number,
  { set, place, other, otherPlace }: Exchange,
): number {
  const a = set[place]!;
  const b = other[otherPlace]!;
  let change = 0;
  const add = (i: number, j: number, by: 1 | -1) => {
    change += 2 * by * together[i * arms + j]! + 1;
    together[i * arms + j]! += by;
    together[j * arms + i] = together[i * arms + j]!;
  };
  for (const x of set) {
    if (x === a) continue;
    add(a, x, -1);
    add(b, x, 1);
  }
  for (const y of other) {
    if (y === b) continue;
    add(b, y, -1);
    add(a, y, 1);
  }
  return change;
}

/** Takes exchanges that lower the mean pairwise variance. */
function refine(sets: readonly number[][], arms: number, start: number, random: RandomSource): void {
  let least = start;
  for (let step = 0; step < FINE_SWAPS; step++) {
    const tried = randomExchange(sets, random);
    if (tried === null) continue;
    exchange(tried);
    const variance = meanVariance(sets, arms);
    if (variance < least) least = variance;
    else exchange(tried);
  }
}

function meanVariance(sets: readonly SetOfArms[], arms: number): number {
  return pairVariances(informationOf(sets, arms), arms)?.mean ?? Number.POSITIVE_INFINITY;
}
