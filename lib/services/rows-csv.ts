import type { PoolRow } from "@/shared/schemas/pool";
import { csvLine } from "./csv";

const COLUMNS = ["grower", "outing", "band", "region", "arm", "box", "outcome", "status"] as const;

/** The rows of a trial as a table that the command `grainlot pool` reads. */
export function rowsCsv(rows: readonly PoolRow[]): string {
  return csvLine(COLUMNS) + rows.map((row) => csvLine(COLUMNS.map((column) => row[column]))).join("");
}
