import type { PoolColumns } from "@/lib/engine/statistics/columns";
import { type FaultList, shown } from "../table/faults";
import type { Header } from "../table/header";
import type { PoolColumn } from "./fields";

/** Adds what only the whole table shows: that there is nothing to compare. */
export function addTableFaults(columns: PoolColumns, header: Header<PoolColumn>, faults: FaultList): void {
  const column = (name: PoolColumn) => ({ place: header.places.get(name)! + 1, name });
  const { n, labels, outcome } = columns;
  if (n === 0) {
    faults.add({
      kind: "no rows",
      line: null,
      message: "There is a header but no row. Add one line per box.",
    });
    return;
  }
  if (labels.arm.length === 1) {
    faults.add({
      kind: "one arm",
      line: null,
      column: column("arm"),
      message: `All boxes have the arm ${shown(labels.arm[0]!)}. Add boxes of another: there is nothing to compare.`,
    });
  }
  const first = outcome.find((one) => !Number.isNaN(one));
  if (first === undefined) {
    faults.add({
      kind: "no outcomes",
      line: null,
      column: column("outcome"),
      message: "No box has an outcome. Add those that were measured.",
    });
  } else if (outcome.every((one) => one === first || Number.isNaN(one))) {
    faults.add({
      kind: "no variation",
      line: null,
      column: column("outcome"),
      message: `Every measured box has the outcome ${first}. Without variation nothing can be estimated; add boxes.`,
    });
  }
}

/** How many boxes hold an arm that their outing's availability, where it is stated, does not list. */
export function unlistedArms({ n, labels, arm, availability }: PoolColumns): number {
  const sets = labels.availability.map((label) => (label === "" ? null : new Set(label.split(" "))));
  let unlisted = 0;
  for (let row = 0; row < n; row++) {
    const set = sets[availability[row]!];
    if (set && !set.has(labels.arm[arm[row]!]!)) unlisted++;
  }
  return unlisted;
}
