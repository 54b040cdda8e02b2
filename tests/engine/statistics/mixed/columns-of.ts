import type { PoolColumns } from "@/lib/engine/statistics/columns";

type Label = string | number;

/** Rows as columns; a factor left out has one level for all boxes. */
export function columnsOf(data: {
  readonly y: readonly (number | null)[];
  readonly outing: readonly Label[];
  readonly grower?: readonly Label[];
  readonly band?: readonly Label[];
  readonly arm?: readonly Label[];
  readonly set?: readonly Label[];
}): PoolColumns {
  const n = data.y.length;
  const constant = Array.from({ length: n }, () => "");
  const coded = (values: readonly Label[] = constant) => {
    const labels = [...new Set(values.map(String))].sort();
    const index = new Map(labels.map((label, i) => [label, i]));
    return { labels, codes: Int32Array.from(values, (value) => index.get(String(value))!) };
  };
  const [grower, outing, band, arm, availability] = [
    coded(data.grower),
    coded(data.outing),
    coded(data.band),
    coded(data.arm),
    coded(data.set),
  ];
  return {
    n,
    labels: {
      grower: grower.labels,
      outing: outing.labels,
      band: band.labels,
      arm: arm.labels,
      availability: availability.labels,
    },
    grower: grower.codes,
    outing: outing.codes,
    band: band.codes,
    arm: arm.codes,
    availability: availability.codes,
    outcome: Float64Array.from(data.y, (y) => y ?? Number.NaN),
    lost: new Uint8Array(n),
  };
}
