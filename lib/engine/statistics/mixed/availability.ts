import type { PoolColumns } from "../columns";
import { groupBy } from "../grouping";
import type { OutingOrder } from "./outing-order";
import type { MixedWarning } from "./types";

/** An availability set of a band as the model has it: its own, or several rare ones together. */
export interface SetGroup {
  readonly band: number;
  /** Share of the band's outings. */
  readonly share: number;
}

export interface AvailabilityGroups {
  /** Bands with a single group have none here: there is nothing to tell apart. */
  readonly groups: readonly SetGroup[];
  /** Index into `groups` of a band's set, or −1. */
  readonly groupOf: (band: number, set: number) => number;
  readonly warnings: readonly MixedWarning[];
}

interface SetCount {
  readonly band: number;
  readonly set: number;
  outings: number;
  growers: number;
  lastGrower: number;
}

/**
 * The availability sets each band's model tells apart. A set met by fewer than `rareSetGrowers` growers of the band
 * is rare: rare sets form one group together or, when even together they are rare, join the commonest set.
 */
export function availabilityGroups(
  columns: PoolColumns,
  order: OutingOrder,
  rareSetGrowers: number,
): AvailabilityGroups {
  const sets = columns.labels.availability.length;
  const groups: SetGroup[] = [];
  const warnings: MixedWarning[] = [];
  const index = new Map<number, number>();
  for (const counts of groupBy(countSets(columns, order), (count) => String(count.band)).values()) {
    const { parts, warning } = mergeRare(columns, counts, rareSetGrowers);
    if (warning) warnings.push(warning);
    if (parts.length < 2) continue;
    const band = counts[0]!.band;
    const outings = sumOf(counts, (count) => count.outings);
    for (const part of parts) {
      for (const count of part) index.set(band * sets + count.set, groups.length);
      groups.push({ band, share: sumOf(part, (count) => count.outings) / outings });
    }
  }
  return { groups, warnings, groupOf: (band, set) => index.get(band * sets + set) ?? -1 };
}

function countSets(columns: PoolColumns, { rows, outingStart, growerStart }: OutingOrder): SetCount[] {
  const sets = columns.labels.availability.length;
  const counts = new Map<number, SetCount>();
  for (let g = 0; g + 1 < growerStart.length; g++) {
    for (let o = growerStart[g]!; o < growerStart[g + 1]!; o++) {
      const row = rows[outingStart[o]!]!;
      const [band, set] = [columns.band[row]!, columns.availability[row]!];
      const count = counts.get(band * sets + set) ?? { band, set, outings: 0, growers: 0, lastGrower: -1 };
      count.outings += 1;
      if (count.lastGrower !== g) count.growers += 1;
      count.lastGrower = g;
      counts.set(band * sets + set, count);
    }
  }
  return [...counts.values()].sort((a, b) => a.band - b.band);
}

/** The band's sets in groups, commonest first (ties: by label order). */
function mergeRare(columns: PoolColumns, counts: readonly SetCount[], rareSetGrowers: number) {
  const sorted = [...counts].sort((a, b) => b.outings - a.outings || a.set - b.set);
  const rare = sorted.filter((count) => count.growers < rareSetGrowers);
  const common = sorted.filter((count) => count.growers >= rareSetGrowers);
  const parts = common.map((count) => [count]);
  if (rare.length === 0) return { parts, warning: null };
  const alone = common.length === 0 || sumOf(rare, (count) => count.growers) >= rareSetGrowers;
  if (alone) parts.push(rare);
  else parts[0]!.push(...rare);
  if (alone && rare.length === 1) return { parts, warning: null };
  const nameOf = (count: SetCount) => columns.labels.availability[count.set]!;
  const warning: MixedWarning = {
    code: "SETS_MERGED",
    band: columns.labels.band[rare[0]!.band]!,
    sets: rare.map(nameOf),
    into: alone ? null : nameOf(common[0]!),
  };
  return { parts, warning };
}

function sumOf<T>(items: readonly T[], countOf: (item: T) => number): number {
  return items.reduce((sum, item) => sum + countOf(item), 0);
}
