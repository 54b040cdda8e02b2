import type { PoolTable } from "@/lib/engine/statistics/pool-table";
import { ByteLabels } from "./byte-labels";
import { IntList } from "./int-list";
import { Outings } from "./outings";

/** The rows read so far, as numbers of labels: about 21 bytes a row and what the names take. */
export class RowStore {
  readonly outings = new Outings();
  readonly arms = new ByteLabels();
  readonly boxes = new ByteLabels();
  readonly #outing = new IntList();
  readonly #arm = new IntList();
  readonly #box = new IntList();
  #outcome = new Float64Array(1024);
  #lost = new Uint8Array(1024);

  get rows(): number {
    return this.#outing.length;
  }

  /** `box` is NO_LABEL where it has no code, `outcome` NaN where it was not measured or lost. */
  add(outing: number, arm: number, box: number, outcome: number, lost: boolean): void {
    const row = this.rows;
    if (row === this.#outcome.length) {
      this.#outcome = grown(this.#outcome, new Float64Array(2 * row));
      this.#lost = grown(this.#lost, new Uint8Array(2 * row));
    }
    this.#outing.push(outing);
    this.#arm.push(arm);
    this.#box.push(box);
    this.#outcome[row] = outcome;
    this.#lost[row] = lost ? 1 : 0;
  }

  /** The rows in the order they were added, labels in the order they first occurred. */
  table(): PoolTable {
    const { names, growers, bands, regions, availability, facts } = this.outings;
    const outing = this.#outing.view();
    const byRow = (ofOuting: Int32Array): Int32Array => outing.map((one) => ofOuting[one]!);
    return {
      columns: {
        n: this.rows,
        labels: {
          grower: growers.texts(),
          outing: names.texts(),
          band: bands.texts(),
          arm: this.arms.texts(),
          availability: availability.labels,
        },
        grower: byRow(facts.grower),
        outing,
        band: byRow(facts.band),
        arm: this.#arm.view(),
        outcome: this.#outcome.subarray(0, this.rows),
        lost: this.#lost.subarray(0, this.rows),
        availability: byRow(facts.availability),
      },
      region: regions.size === 0 ? null : { labels: regions.texts(), index: byRow(facts.region) },
      box: this.boxes.size === 0 ? null : { texts: this.boxes.packed(), index: this.#box.view() },
      cleanTake: null,
    };
  }
}

function grown<T extends Float64Array | Uint8Array>(values: T, larger: T): T {
  larger.set(values);
  return larger;
}
