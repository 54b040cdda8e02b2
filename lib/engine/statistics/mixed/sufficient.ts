import type { LinkedGroups } from "./linked-groups";

/**
 * All the fit needs of the data. The model's fixed columns are the cells (band × arm with a measured box), sorted by
 * band and arm, then the availability groups. A grower's outings are kept as counts and sums per cell, so that
 * boxes alike in everything cost nothing more; outcomes are centred at their cell's mean, which keeps sums of
 * squares exact. Global arrays run over growers, their outings and those outings' entries; `…Start` arrays hold
 * where each begins and, at their end, the total.
 */
export interface SufficientData {
  readonly boxes: number;
  readonly cells: readonly CellCount[];
  /** Fixed columns: cells, then availability groups. */
  readonly columnCount: number;
  /** The mean outcome of each cell, which `entrySum` and `outingSum` are taken from. */
  readonly cellMean: Float64Array;

  readonly growerCount: number;
  readonly growerLabel: Int32Array;
  readonly growerBoxes: Int32Array;
  /** Σ (outcome − cell mean)² over the grower's boxes. */
  readonly growerSquares: Float64Array;
  /** Per grower into `outing…` arrays. */
  readonly growerStart: Int32Array;
  /** Per grower into `ownColumn` and `ownArm`: the fixed columns the grower touches, ascending. */
  readonly ownStart: Int32Array;
  readonly ownColumn: Int32Array;
  /** Of `ownColumn`: which of the grower's own arms the cell has, numbered from 0 as met; −1: no cell. */
  readonly ownArm: Int32Array;
  /** Per grower: how many of its own columns are cells (they come first), and how many arms they have. */
  readonly ownCells: Int32Array;
  readonly ownArms: Int32Array;

  /** Per outing into `entry…` arrays. */
  readonly outingStart: Int32Array;
  readonly outingBoxes: Int32Array;
  readonly outingSum: Float64Array;
  /** The outing's availability group as one of the grower's own columns, or −1. */
  readonly outingAvailability: Int32Array;
  /** Which of the grower's own columns the entry's cell is; ascending within an outing. */
  readonly entryColumn: Int32Array;
  readonly entryBoxes: Int32Array;
  readonly entrySum: Float64Array;

  /** Cells linked by chains of growers, and cells and availability groups linked by chains of outings. */
  readonly byGrower: LinkedGroups;
  readonly byOuting: LinkedGroups;
}

export interface CellCount {
  readonly band: number;
  readonly arm: number;
  boxes: number;
  outings: number;
  growers: number;
}
