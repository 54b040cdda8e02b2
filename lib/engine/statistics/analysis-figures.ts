import type { AnalysisReason } from "@/shared/schemas/pool-analysis";
import type { PoolColumns } from "./columns";
import { tQuantile } from "./distributions";
import type { MixedEstimate, NotEstimable } from "./mixed/types";

/** A test or an interval over growers says nothing about growers in general when there are fewer. */
export const MINIMUM_GROWERS = 3;

/** Numbers of an estimate as results carry them. */
export interface Estimated {
  readonly estimate: number | null;
  readonly se: number | null;
  readonly df: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

export const NO_ESTIMATE: Estimated = { estimate: null, se: null, df: null, lower: null, upper: null };
export const NO_INTERVAL = { lower: null, upper: null } as const;

/** estimate ± t · se at `level`; df may be Infinity. */
export function tInterval(estimate: number, se: number, df: number, level: number) {
  const half = tQuantile(1 - (1 - level) / 2, df) * se;
  return { lower: estimate - half, upper: estimate + half };
}

/** A fit's estimate with its t interval; why there is none stands in `reason`. */
export function estimatedOf(
  found: MixedEstimate,
  { level, growers }: { readonly level: number; readonly growers: number },
): Estimated & { readonly reason: AnalysisReason | null } {
  if (!found.estimable) return { ...NO_ESTIMATE, reason: reasonOf(found.reason) };
  const { estimate, se, df } = found;
  if (!(se > 0)) return { ...NO_ESTIMATE, estimate, reason: "NO_VARIATION" };
  if (growers < MINIMUM_GROWERS)
    return { estimate, se, df: finite(df), ...NO_INTERVAL, reason: "TOO_FEW_GROWERS" };
  return { estimate, se, df: finite(df), ...tInterval(estimate, se, df, level), reason: null };
}

/** With fixed outings, what can't be compared within outings is simply not linked. */
export function reasonOf(reason: NotEstimable): AnalysisReason {
  return reason === "WITHIN_OUTINGS_ONLY" ? "NOT_LINKED" : reason;
}

/** Results hold no infinite number: degrees of freedom that don't matter are null. */
export function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

/** All pairs of a list, first before second. */
export function pairsOf<T>(items: readonly T[]): (readonly [T, T])[] {
  return items.flatMap((first, i) => items.slice(i + 1).map((second) => [first, second] as const));
}

/** Every cell with boxes, band by band. */
export function cellsIn({ n, labels, band, arm }: PoolColumns): { band: string; arm: string }[] {
  const arms = labels.arm.length;
  const met = new Uint8Array(labels.band.length * arms);
  for (let row = 0; row < n; row++) met[band[row]! * arms + arm[row]!] = 1;
  return labels.band.flatMap((own, b) =>
    labels.arm.flatMap((name, a) => (met[b * arms + a] === 1 ? [{ band: own, arm: name }] : [])),
  );
}
