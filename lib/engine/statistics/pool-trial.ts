import type { PoolResult, PoolRow } from "@/shared/schemas/pool";
import { type PoolOptions, poolColumns } from "./pool-columns";
import { poolTable } from "./pool-table";

/** The pooled result of rows as objects, for small tables: see `poolColumns`. */
export function poolTrial(rows: readonly PoolRow[], options: PoolOptions = {}): PoolResult {
  return poolColumns(poolTable(rows), undefined, options).result;
}
