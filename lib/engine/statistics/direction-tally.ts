import type { NormalPoints } from "./normal-points";

/** Classes of m in (0, 1], kept by their means: an error far below the Monte Carlo error. */
const CLASSES = 256;

export interface DirectionClass {
  /** Mean of m(u) in the class. */
  readonly m: number;
  /** Per set of points, the share of its directions in the class. */
  readonly shares: Float64Array;
}

/** Counts directions u of quasi-random points by their largest product m(u) with some rows, for several m at once. */
export class DirectionTally {
  /** By which m, class and set; and the sum of m by which and class. */
  readonly #counts: Float64Array;
  readonly #sums: Float64Array;
  readonly #points: NormalPoints;

  constructor(points: NormalPoints, number: number) {
    this.#points = points;
    this.#counts = new Float64Array(number * CLASSES * points.replicates);
    this.#sums = new Float64Array(number * CLASSES);
  }

  /** @param m of a direction of this set, passed over unless above 0 */
  add(which: number, m: number, set: number): void {
    if (m <= 0) return;
    const place = which * CLASSES + Math.min(CLASSES - 1, Math.floor(m * CLASSES));
    this.#counts[place * this.#points.replicates + set]! += 1;
    this.#sums[place]! += m;
  }

  /** Empty classes left out. */
  classesOf(which: number): DirectionClass[] {
    const { replicates, pairsPerReplicate } = this.#points;
    return Array.from({ length: CLASSES }, (_, i) => which * CLASSES + i).flatMap((place) => {
      const perSet = this.#counts.subarray(place * replicates, (place + 1) * replicates);
      const count = perSet.reduce((sum, x) => sum + x, 0);
      if (count === 0) return [];
      return [{ m: this.#sums[place]! / count, shares: perSet.map((x) => x / (2 * pairsPerReplicate)) }];
    });
  }
}
