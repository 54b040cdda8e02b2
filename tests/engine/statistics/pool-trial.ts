import { type PoolOptions, poolColumns } from "@/lib/engine/statistics/pool-columns";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import type { PoolResult, PoolRow } from "@/shared/schemas/pool";

/** The pooled result of rows as objects, for small tables: see `poolColumns`. */
export function poolTrial(rows: readonly PoolRow[], options: PoolOptions = {}): PoolResult {
  return poolColumns(poolTable(rows), undefined, options).result;
}
