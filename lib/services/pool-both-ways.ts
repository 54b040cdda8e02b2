import { type PoolOptions, poolColumns } from "@/lib/engine/statistics/pool-columns";
import { interimResult } from "@/lib/engine/statistics/pool-interim";
import { withholdSmallCells } from "@/lib/engine/statistics/withholding";
import type { InterimLook, PoolResult } from "@/shared/schemas/pool";
import { cutName } from "./pool-cut";
import type { PoolData } from "./pool-data";

/** What a pool is made of: data alone, so that another process can do it. */
export interface PoolWork extends PoolData {
  /** What the published form is made of, where newer boxes have to wait; else it is made of the same. */
  readonly shownData?: PoolData;
  readonly options: PoolOptions;
  /** Null for a final result. */
  readonly interim: InterimLook | null;
}

export interface Pooled {
  /** For the trial's lead. */
  readonly result: PoolResult;
  /** With small cells withheld, for everyone. */
  readonly published: PoolResult;
  /** Names the data and the look. */
  readonly cut: string;
}

/** Both forms of the result of some boxes. */
export function poolBothWays({ table, extras, shownData, options, interim }: PoolWork): Pooled {
  const pooled = poolColumns(table, extras, options);
  const shown = (result: PoolResult): PoolResult => (interim ? interimResult(result, interim) : result);
  return {
    result: shown(pooled.result),
    published: shown(shownData ? publishedOf(shownData, options) : withholdSmallCells(pooled)),
    cut: cutName(pooled, interim),
  };
}

function publishedOf({ table, extras }: PoolData, options: PoolOptions): PoolResult {
  const published = withholdSmallCells(poolColumns(table, extras, { ...options, byGrower: false }));
  return { ...published, notes: [...published.notes, "NEWER_RECORDS_WAIT"] };
}
