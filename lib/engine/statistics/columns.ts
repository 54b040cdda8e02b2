/** Rows as columns; each Int32Array indexes its label list. An outing has one grower, band and availability set. */
export interface PoolColumns {
  readonly n: number;
  readonly labels: {
    readonly grower: readonly string[];
    readonly outing: readonly string[];
    readonly band: readonly string[];
    readonly arm: readonly string[];
    readonly availability: readonly string[];
  };
  readonly grower: Int32Array;
  readonly outing: Int32Array;
  readonly band: Int32Array;
  readonly arm: Int32Array;
  /** NaN: not measured or lost. */
  readonly outcome: Float64Array;
  /** 1 where the box was lost, else 0. */
  readonly lost: Uint8Array;
  /** Which arms the outing's grower could have cooked: arm names in code-unit order, a space between; "" not stated. */
  readonly availability: Int32Array;
}
