import type { PoolColumns } from "../columns";
import type { AvailabilityGroups } from "./availability";
import { LinkedGroups } from "./linked-groups";
import type { OutingOrder } from "./outing-order";
import type { CellCount, SufficientData } from "./sufficient";

/** Gathers what the fit needs in one pass over the ordered rows; without `availability` no such columns are made. */
export function gatherSufficient(
  columns: PoolColumns,
  order: OutingOrder,
  availability: AvailabilityGroups | null,
): SufficientData {
  const gathering = new Gathering(columns, order, availability);
  for (let g = 0; g < order.growerLabel.length; g++) gathering.addGrower(g);
  return gathering.finish();
}

class Gathering {
  readonly #columns: PoolColumns;
  readonly #order: OutingOrder;
  readonly #availability: AvailabilityGroups | null;
  readonly #cells: CellCount[] = [];
  /** Cell of band × arm, or −1. */
  readonly #cellIndex: Int32Array;
  readonly #cellMean: Float64Array;
  readonly #columnCount: number;
  readonly #byGrower: LinkedGroups;
  readonly #byOuting: LinkedGroups;

  readonly #growerBoxes: Int32Array;
  readonly #growerSquares: Float64Array;
  /** For the grower at hand: a fixed column's place among its own. */
  readonly #localOf: Int32Array;
  readonly #ownStart: Int32Array;
  readonly #ownColumn: number[] = [];
  readonly #ownArm: number[] = [];
  readonly #ownCells: Int32Array;
  readonly #ownArms: Int32Array;

  readonly #outingStart: Int32Array;
  readonly #outingBoxes: Int32Array;
  readonly #outingSum: Float64Array;
  readonly #outingAvailability: Int32Array;
  #entries = 0;
  readonly #entryColumn: Int32Array;
  readonly #entryBoxes: Int32Array;
  readonly #entrySum: Float64Array;

  constructor(columns: PoolColumns, order: OutingOrder, availability: AvailabilityGroups | null) {
    this.#columns = columns;
    this.#order = order;
    this.#availability = availability;
    this.#cellIndex = new Int32Array(columns.labels.band.length * columns.labels.arm.length).fill(-1);
    this.#cellMean = this.#countCells();
    this.#columnCount = this.#cells.length + (availability?.groups.length ?? 0);
    this.#byGrower = new LinkedGroups(this.#cells.length);
    this.#byOuting = new LinkedGroups(this.#columnCount);
    this.#localOf = new Int32Array(this.#columnCount);
    const growers = order.growerLabel.length;
    this.#growerBoxes = new Int32Array(growers);
    this.#growerSquares = new Float64Array(growers);
    this.#ownStart = new Int32Array(growers + 1);
    this.#ownCells = new Int32Array(growers);
    this.#ownArms = new Int32Array(growers);
    const outings = order.outingStart.length - 1;
    this.#outingStart = new Int32Array(outings + 1);
    this.#outingBoxes = new Int32Array(outings);
    this.#outingSum = new Float64Array(outings);
    this.#outingAvailability = new Int32Array(outings);
    this.#entryColumn = new Int32Array(order.rows.length);
    this.#entryBoxes = new Int32Array(order.rows.length);
    this.#entrySum = new Float64Array(order.rows.length);
  }

  /** Fills the cells and their index; returns their mean outcomes. */
  #countCells(): Float64Array {
    const { band, arm, outcome, labels } = this.#columns;
    const arms = labels.arm.length;
    const boxes = new Float64Array(this.#cellIndex.length);
    const sums = new Float64Array(this.#cellIndex.length);
    const { rows } = this.#order;
    for (let i = 0; i < rows.length; i++) {
      const row = rows[i]!;
      const key = band[row]! * arms + arm[row]!;
      boxes[key]! += 1;
      sums[key]! += outcome[row]!;
    }
    const means: number[] = [];
    for (let key = 0; key < boxes.length; key++) {
      if (boxes[key] === 0) continue;
      this.#cellIndex[key] = this.#cells.length;
      means.push(sums[key]! / boxes[key]!);
      this.#cells.push({
        band: Math.floor(key / arms),
        arm: key % arms,
        boxes: boxes[key]!,
        outings: 0,
        growers: 0,
      });
    }
    return Float64Array.from(means);
  }

  #cellOf(row: number): number {
    const { band, arm, labels } = this.#columns;
    return this.#cellIndex[band[row]! * labels.arm.length + arm[row]!]!;
  }

  /** The fixed column of the row's availability group, or −1. */
  #groupColumnOf(row: number): number {
    if (this.#availability === null) return -1;
    const group = this.#availability.groupOf(this.#columns.band[row]!, this.#columns.availability[row]!);
    return group < 0 ? -1 : this.#cells.length + group;
  }

  addGrower(g: number): void {
    const { growerStart, outingStart } = this.#order;
    this.#takeOwnColumns(g, outingStart[growerStart[g]!]!, outingStart[growerStart[g + 1]!]!);
    for (let o = growerStart[g]!; o < growerStart[g + 1]!; o++) this.#addOuting(g, o);
  }

  #takeOwnColumns(g: number, from: number, to: number): void {
    const touched = new Set<number>();
    for (let i = from; i < to; i++) {
      const row = this.#order.rows[i]!;
      touched.add(this.#cellOf(row));
      const group = this.#groupColumnOf(row);
      if (group >= 0) touched.add(group);
    }
    const own = [...touched].sort((a, b) => a - b);
    const arms: number[] = [];
    own.forEach((column, local) => {
      this.#localOf[column] = local;
      this.#ownColumn.push(column);
      const cell = this.#cells[column];
      if (cell === undefined) {
        this.#ownArm.push(-1);
        return;
      }
      cell.growers += 1;
      this.#ownCells[g]! += 1;
      this.#byGrower.link(own[0]!, column);
      if (!arms.includes(cell.arm)) arms.push(cell.arm);
      this.#ownArm.push(arms.indexOf(cell.arm));
    });
    this.#ownArms[g] = arms.length;
    this.#ownStart[g + 1] = this.#ownColumn.length;
  }

  #addOuting(g: number, o: number): void {
    const { rows, outingStart } = this.#order;
    const [from, to] = [outingStart[o]!, outingStart[o + 1]!];
    const begin = this.#entries;
    const firstCell = this.#cellOf(rows[from]!);
    this.#outingStart[o] = begin;
    this.#outingBoxes[o] = to - from;
    this.#growerBoxes[g]! += to - from;
    for (let i = from; i < to; i++) {
      const cell = this.#cellOf(rows[i]!);
      const deviation = this.#columns.outcome[rows[i]!]! - this.#cellMean[cell]!;
      this.#addBox(begin, cell, deviation);
      this.#outingSum[o]! += deviation;
      this.#growerSquares[g]! += deviation * deviation;
      this.#byOuting.link(firstCell, cell);
    }
    const group = this.#groupColumnOf(rows[from]!);
    this.#outingAvailability[o] = group < 0 ? -1 : this.#localOf[group]!;
    if (group >= 0) this.#byOuting.link(firstCell, group);
  }

  /** An outing's boxes of one cell stand together and share an entry. */
  #addBox(begin: number, cell: number, deviation: number): void {
    const local = this.#localOf[cell]!;
    let e = this.#entries - 1;
    if (e < begin || this.#entryColumn[e] !== local) {
      e += 1;
      this.#entries += 1;
      this.#entryColumn[e] = local;
      this.#cells[cell]!.outings += 1;
    }
    this.#entryBoxes[e]! += 1;
    this.#entrySum[e]! += deviation;
  }

  finish(): SufficientData {
    this.#outingStart[this.#outingBoxes.length] = this.#entries;
    return {
      boxes: this.#order.rows.length,
      cells: this.#cells,
      columnCount: this.#columnCount,
      cellMean: this.#cellMean,
      growerCount: this.#order.growerLabel.length,
      growerLabel: this.#order.growerLabel,
      growerBoxes: this.#growerBoxes,
      growerSquares: this.#growerSquares,
      growerStart: this.#order.growerStart,
      ownStart: this.#ownStart,
      ownColumn: Int32Array.from(this.#ownColumn),
      ownArm: Int32Array.from(this.#ownArm),
      ownCells: this.#ownCells,
      ownArms: this.#ownArms,
      outingStart: this.#outingStart,
      outingBoxes: this.#outingBoxes,
      outingSum: this.#outingSum,
      outingAvailability: this.#outingAvailability,
      entryColumn: this.#entryColumn.slice(0, this.#entries),
      entryBoxes: this.#entryBoxes.slice(0, this.#entries),
      entrySum: this.#entrySum.slice(0, this.#entries),
      byGrower: this.#byGrower,
      byOuting: this.#byOuting,
    };
  }
}
