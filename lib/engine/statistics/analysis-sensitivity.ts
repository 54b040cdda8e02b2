import type { PoolAnalysis, PoolContrast } from "@/shared/schemas/pool-analysis";
import { MINIMUM_GROWERS, NO_INTERVAL } from "./analysis-figures";
import type { AnalysisPlan } from "./analysis-plan";
import type { PoolColumns } from "./columns";
import { difference } from "./mixed/contrasts";
import { fitMixedModel } from "./mixed/fit-mixed-model";
import type { MixedFitResult } from "./mixed/types";
import type { PoolExtras } from "./pool-extras";

type Sensitivity = PoolAnalysis["sensitivity"][number];
export type SensitivityKind = Sensitivity["kind"];

/**
 * The main contrasts from the model fitted again: with outings held fixed; with masked grades for outcomes (a box's
 * mean over its graders); by what was cooked; from sets fetched all on one day (descriptive: the day follows growth);
 * with every lost box as good as the best or as bad as the worst one seen. Intervals are as many standard errors
 * wide as the main contrast's.
 */
export function sensitivityFits(
  columns: PoolColumns,
  extras: PoolExtras,
  main: readonly PoolContrast[],
  { random }: AnalysisPlan,
  fixed: MixedFitResult,
): Sensitivity[] {
  const refitted = (kind: SensitivityKind): Sensitivity => {
    const changed = changedColumns(kind, columns, extras);
    if (!changed) return { kind, ...NO_BASE, contrasts: [], reason: "NOT_MEASURED" };
    return sensitivityOf(kind, fitMixedModel(changed, { random }), main);
  };
  return [
    sensitivityOf("FIXED_OUTINGS", fixed, main),
    ...(["MASKED_GRADES", "AS_COOKED", "SAME_DAY_FETCH", "LOST_AS_BEST", "LOST_AS_WORST"] as const).map(
      refitted,
    ),
  ];
}

const NO_BASE = { boxes: null, outings: null, growers: null };

function sensitivityOf(
  kind: SensitivityKind,
  result: MixedFitResult,
  main: readonly PoolContrast[],
): Sensitivity {
  if (!result.ok) return { kind, ...NO_BASE, contrasts: [], reason: result.reason };
  const { fit } = result;
  const { boxes, outings, growers } = fit;
  const base = { kind, boxes, outings, growers };
  if (growers < MINIMUM_GROWERS) return { ...base, contrasts: [], reason: "TOO_FEW_GROWERS" };
  const contrasts = main.flatMap((one) => {
    const { band, first, second } = one;
    const found = difference(fit, band, first, second);
    if (!found.estimable) return [];
    const { estimate, se } = found;
    const widths = one.se && one.upper !== null ? (one.upper - one.difference!) / one.se : null;
    const interval =
      widths === null ? NO_INTERVAL : { lower: estimate - widths * se, upper: estimate + widths * se };
    return [{ band, first, second, difference: estimate, se, ...interval }];
  });
  return { ...base, contrasts, reason: contrasts.length > 0 ? null : "NOT_LINKED" };
}

/** The table under the other assumption; null where nothing is known to make it from. */
export function changedColumns(
  kind: SensitivityKind,
  columns: PoolColumns,
  extras: PoolExtras,
): PoolColumns | null {
  switch (kind) {
    case "FIXED_OUTINGS":
      return columns;
    case "MASKED_GRADES":
      return extras.masked && { ...columns, outcome: maskedOutcomes(columns.n, extras.masked) };
    case "AS_COOKED":
      return extras.asCooked && asCooked(columns, extras.asCooked);
    case "SAME_DAY_FETCH":
      return extras.fetchDay && { ...columns, outcome: ofSameDaySets(columns, extras.fetchDay) };
    case "LOST_AS_BEST":
      return lostAs(columns, (values) => values.reduce((most, y) => Math.max(most, y)));
    case "LOST_AS_WORST":
      return lostAs(columns, (values) => values.reduce((least, y) => Math.min(least, y)));
  }
}

function lostAs(columns: PoolColumns, choose: (seen: Float64Array) => number): PoolColumns {
  if (!columns.lost.includes(1)) return columns;
  const seen = columns.outcome.filter((y) => !Number.isNaN(y));
  const value = choose(seen);
  return { ...columns, outcome: columns.outcome.map((y, row) => (columns.lost[row] === 1 ? value : y)) };
}

function maskedOutcomes(n: number, { row, take }: NonNullable<PoolExtras["masked"]>): Float64Array {
  const sum = new Float64Array(n);
  const looks = new Float64Array(n);
  row.forEach((own, i) => {
    sum[own]! += take[i]!;
    looks[own]!++;
  });
  return sum.map((total, own) => (looks[own]! > 0 ? total / looks[own]! : Number.NaN));
}

function asCooked(columns: PoolColumns, cooked: NonNullable<PoolExtras["asCooked"]>): PoolColumns {
  const place = new Map(columns.labels.arm.map((arm, i) => [arm, i]));
  const arm = cooked.index.map((label) => (label < 0 ? -1 : (place.get(cooked.labels[label]!) ?? -1)));
  return {
    ...columns,
    arm: arm.map((own, row) => (own < 0 ? columns.arm[row]! : own)),
    outcome: columns.outcome.map((y, row) => (arm[row]! < 0 ? Number.NaN : y)),
  };
}

/** Outcomes of the sets whose measured boxes were all fetched on one known day. */
function ofSameDaySets({ labels, outing, outcome }: PoolColumns, fetchDay: Float64Array): Float64Array {
  const day = new Float64Array(labels.outing.length).fill(Number.NEGATIVE_INFINITY);
  outcome.forEach((y, row) => {
    if (Number.isNaN(y)) return;
    const known = day[outing[row]!]!;
    if (known === Number.NEGATIVE_INFINITY) day[outing[row]!] = fetchDay[row]!;
    else if (known !== fetchDay[row]) day[outing[row]!] = Number.NaN;
  });
  return outcome.map((y, row) => (Number.isNaN(day[outing[row]!]!) ? Number.NaN : y));
}
