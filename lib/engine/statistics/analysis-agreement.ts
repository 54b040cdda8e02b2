import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { seededSource } from "../random/source";
import { type GradedUnit, kappa, ordinalAlphaInterval } from "./agreement";
import { NO_INTERVAL } from "./analysis-figures";
import type { PoolColumns } from "./columns";
import type { PoolExtras } from "./pool-extras";

type Agreement = PoolAnalysis["agreement"];

const CLASSES = 5;
const RESAMPLES = 999;
/** Growers grade their own boxes and count as one grader. */
const OWN = -1;

/**
 * How far the growers' own records and the second looks at photographs agree. Alpha is over all of them, resampled by
 * grower; kappa is of the two graders (growers being one) who have most boxes in common.
 */
export function graderAgreement(
  columns: PoolColumns,
  { masked }: PoolExtras,
  { level, seed }: { readonly level: number; readonly seed: string },
): Agreement {
  const none = { boxes: 0, graders: 0, kappa: null, alpha: null, ...NO_INTERVAL };
  if (!masked) return { ...none, reason: "NOT_MEASURED" };
  const readings = readingsByBox(columns, masked);
  const units = [...readings].map(
    ([row, own]): GradedUnit => ({
      cluster: columns.labels.grower[columns.grower[row]!]!,
      grades: [...own.values()],
    }),
  );
  const source = seededSource(`${seed}/agreement`);
  const found = ordinalAlphaInterval(units, CLASSES, { level, resamples: RESAMPLES, source });
  const { alpha, lower, upper, boxes, reason } = found;
  const graders = new Set([...readings.values()].flatMap((own) => (own.size > 1 ? [...own.keys()] : [])))
    .size;
  if (reason) return { ...none, boxes, graders, reason };
  return { boxes, graders, kappa: kappaOfTwo([...readings.values()]), alpha, lower, upper, reason: null };
}

/** Growth by grader of every box with a second look, a lost or unmeasured box's own growth left out. */
function readingsByBox(
  { outcome }: PoolColumns,
  masked: NonNullable<PoolExtras["masked"]>,
): Map<number, Map<number, number>> {
  const readings = new Map<number, Map<number, number>>();
  masked.row.forEach((row, i) => {
    let own = readings.get(row);
    if (!own) {
      own = new Map();
      if (Number.isInteger(outcome[row]!)) own.set(OWN, outcome[row]!);
      readings.set(row, own);
    }
    own.set(masked.grader[i]!, masked.take[i]!);
  });
  return readings;
}

function kappaOfTwo(readings: readonly ReadonlyMap<number, number>[]): number | null {
  const tables = new Map<string, { boxes: number; table: number[][] }>();
  for (const own of readings) {
    const graders = [...own.keys()].sort((a, b) => a - b);
    graders.forEach((first, i) => {
      for (const second of graders.slice(i + 1)) {
        const key = `${first} ${second}`;
        const pair = tables.get(key) ?? { boxes: 0, table: emptyTable() };
        tables.set(key, pair);
        pair.boxes++;
        pair.table[own.get(first)!]![own.get(second)!]!++;
      }
    });
  }
  const [most] = [...tables].sort(([a, x], [b, y]) => y.boxes - x.boxes || (a < b ? -1 : 1));
  return most ? kappa(most[1].table, "quadratic") : null;
}

function emptyTable(): number[][] {
  return Array.from({ length: CLASSES }, () => new Array<number>(CLASSES).fill(0));
}
