import type { PoolColumns } from "./columns";
import { countingSort } from "./counting-sort";
import type { PoolTable } from "./pool-table";

/** Boxes with a yes or no, and what their share's variance over growers needs. */
export interface ShareTally {
  readonly boxes: number;
  readonly outings: number;
  readonly growers: number;
  readonly hits: number;
  /** Over growers, with x their hits of n boxes: Σx², Σxn, Σn². Whole numbers, so exact. */
  readonly xx: number;
  readonly xn: number;
  readonly nn: number;
}

/** What a group of boxes adds up to, the grower being the unit. */
export interface GroupTally {
  readonly boxes: number;
  readonly outings: number;
  readonly growers: number;
  readonly lost: number;
  /** Graded without an outcome. */
  readonly unmeasured: number;
  /** Boxes with an outcome: mean over growers' own means, and Σ (own mean − mean)². */
  readonly measured: {
    readonly boxes: number;
    readonly outings: number;
    readonly growers: number;
    readonly mean: number;
    readonly squares: number;
  };
  /** Measured boxes with growth 0, 1, 2, 3, 4; null when some outcome is none of these. */
  readonly classes: readonly number[] | null;
  /** Of the graded boxes where it is known. */
  readonly clean: ShareTally;
  /** Of all boxes. */
  readonly loss: ShareTally;
}

/** Rows grower by grower, and outing by outing within a grower. Linear in rows. */
export function rowsByGrower({ n, labels, grower, outing }: PoolColumns): Int32Array {
  const rows = new Int32Array(n);
  for (let row = 0; row < n; row++) rows[row] = row;
  const byOuting = countingSort(rows, outing, labels.outing.length);
  return countingSort(byOuting, grower, labels.grower.length);
}

/**
 * One tally per group, in one pass.
 * @param order from `rowsByGrower`
 * @param groupOf a number from 0 by row; negative: in no group
 */
export function tallyGroups(
  { columns, cleanTake }: PoolTable,
  order: Int32Array,
  groupOf: Int32Array,
  groups: number,
): GroupTally[] {
  const { grower, outing, outcome, lost } = columns;
  const tallies = Array.from({ length: groups }, () => new RunningTally());
  for (let i = 0; i < order.length; i++) {
    const row = order[i]!;
    const group = groupOf[row]!;
    if (group < 0) continue;
    const isLost = lost[row] === 1;
    const clean = isLost || cleanTake === null ? -1 : cleanTake[row]!;
    tallies[group]!.add(grower[row]!, outing[row]!, isLost ? Number.NaN : outcome[row]!, isLost, clean);
  }
  return tallies.map((tally) => tally.end());
}

/** Boxes, outings and growers met so far, where equal ones come one after the other. */
class Basis {
  boxes = 0;
  outings = 0;
  growers = 0;
  #grower = -1;
  #outing = -1;

  /** Whether a new grower begins. */
  add(grower: number, outing: number): boolean {
    this.boxes++;
    if (outing !== this.#outing) {
      this.outings++;
      this.#outing = outing;
    }
    if (grower === this.#grower) return false;
    this.growers++;
    this.#grower = grower;
    return true;
  }
}

class RunningShare implements ShareTally {
  readonly #basis = new Basis();
  hits = 0;
  xx = 0;
  xn = 0;
  nn = 0;
  /** The current grower's. */
  #x = 0;
  #n = 0;

  get boxes(): number {
    return this.#basis.boxes;
  }
  get outings(): number {
    return this.#basis.outings;
  }
  get growers(): number {
    return this.#basis.growers;
  }

  add(grower: number, outing: number, hit: number): void {
    if (this.#basis.add(grower, outing)) this.endGrower();
    this.#n++;
    this.#x += hit;
    this.hits += hit;
  }

  endGrower(): void {
    this.xx += this.#x * this.#x;
    this.xn += this.#x * this.#n;
    this.nn += this.#n * this.#n;
    this.#x = 0;
    this.#n = 0;
  }
}

class RunningTally {
  readonly #basis = new Basis();
  readonly #measured = new Basis();
  readonly #clean = new RunningShare();
  readonly #loss = new RunningShare();
  readonly #classes = [0, 0, 0, 0, 0];
  #otherOutcomes = 0;
  #lost = 0;
  /** The current grower's outcomes. */
  #sum = 0;
  #count = 0;
  /** Over the growers so far (Welford 1962, Technometrics 4:419–420). */
  #means = 0;
  #mean = 0;
  #squares = 0;

  /** `outcome` is NaN where not measured; `clean` 1, 0, or −1 where not known. */
  add(grower: number, outing: number, outcome: number, lost: boolean, clean: number): void {
    this.#basis.add(grower, outing);
    this.#loss.add(grower, outing, lost ? 1 : 0);
    if (lost) this.#lost++;
    if (clean >= 0) this.#clean.add(grower, outing, clean);
    if (Number.isNaN(outcome)) return;
    if (this.#measured.add(grower, outing)) this.#endGrower();
    this.#sum += outcome;
    this.#count++;
    if (this.#classes[outcome] === undefined) this.#otherOutcomes++;
    else this.#classes[outcome]++;
  }

  end(): GroupTally {
    this.#endGrower();
    for (const share of [this.#clean, this.#loss]) share.endGrower();
    const { boxes, outings, growers } = this.#basis;
    const measured = this.#measured;
    return {
      boxes,
      outings,
      growers,
      lost: this.#lost,
      unmeasured: boxes - this.#lost - measured.boxes,
      measured: {
        boxes: measured.boxes,
        outings: measured.outings,
        growers: measured.growers,
        mean: this.#mean,
        squares: this.#squares,
      },
      classes: this.#otherOutcomes > 0 ? null : this.#classes,
      clean: this.#clean,
      loss: this.#loss,
    };
  }

  #endGrower(): void {
    if (this.#count === 0) return;
    const own = this.#sum / this.#count;
    this.#means++;
    const step = own - this.#mean;
    this.#mean += step / this.#means;
    this.#squares += step * (own - this.#mean);
    this.#sum = 0;
    this.#count = 0;
  }
}
