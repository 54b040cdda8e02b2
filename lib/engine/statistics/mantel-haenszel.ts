import type { BinaryOuting } from "./binary-outings";
import { tQuantile, tUpperTail } from "./distributions";

/** An estimate with its t interval and p over growers. */
export interface ClusteredEstimate {
  readonly estimate: number;
  readonly se: number;
  readonly lower: number;
  readonly upper: number;
  readonly p: number;
}

/** A ratio with its interval by Fieller's method; `upper` is null where the data don't bound it. */
export interface ClusteredRatio {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number | null;
  /** Of the ratio 1. */
  readonly p: number;
}

export interface MantelHaenszel {
  readonly method: "MANTEL_HAENSZEL_BY_OUTING";
  /** Boxes, outings and growers of the outings that had both arms; only these compare anything. */
  readonly boxes: number;
  readonly outings: number;
  readonly growers: number;
  /** Growers − 1. */
  readonly df: number;
  /** Share of events, first − second. */
  readonly difference: ClusteredEstimate | null;
  /** Odds of the first over odds of the second; null where it is 0 or infinite. */
  readonly oddsRatio: ClusteredRatio | null;
  readonly reason: "NOT_LINKED" | "TOO_FEW_GROWERS" | "NO_VARIATION" | null;
}

/** One grower's sums over outings: w = n₁n₂/n, wd = w(p₁ − p₂), R and S of the odds ratio R/S. */
interface GrowerSums {
  w: number;
  wd: number;
  R: number;
  S: number;
}

const MINIMUM_GROWERS = 3;

/**
 * Two arms compared within outings: the Mantel–Haenszel risk difference Σwd/Σw (Greenland & Robins 1985, Biometrics
 * 41:55–68) and odds ratio R/S, R = Σx₁(n₂ − x₂)/n, S = Σx₂(n₁ − x₁)/n (Mantel & Haenszel 1959, JNCI 22:719–748).
 *
 * The grower is the unit, so that any dependence between a grower's outings is allowed for. The difference's variance
 * is linearised with residuals r_g = (wd)_g − difference·w_g; a grower who carries the share h of the weight
 * pulls the estimate to itself and leaves a residual too small by √(1 − h), which is undone (for equal growers this
 * is the factor G/(G − 1)). The odds ratio ψ is tested and bounded by R − ψS, whose growers' parts have mean 0 at the
 * true ψ (Fieller 1954, JRSS B 16:175–185). Both use t(G − 1).
 *
 * Differences of more than two arms need not add up (first − second and second − third may not give first − third),
 * as every pair rests on outings of its own.
 */
export function mantelHaenszel(
  outings: readonly BinaryOuting[],
  { first, second, level }: { readonly first: number; readonly second: number; readonly level: number },
): MantelHaenszel {
  const { byGrower, boxes, compared } = sumByGrower(outings, first, second);
  const sums = [...byGrower.values()];
  const growers = sums.length;
  const df = Math.max(0, growers - 1);
  const base = { method: "MANTEL_HAENSZEL_BY_OUTING" as const, boxes, outings: compared, growers, df };
  const refused = (reason: NonNullable<MantelHaenszel["reason"]>): MantelHaenszel => ({
    ...base,
    difference: null,
    oddsRatio: null,
    reason,
  });
  if (growers === 0) return refused("NOT_LINKED");
  if (growers < MINIMUM_GROWERS) return refused("TOO_FEW_GROWERS");
  const total = (key: keyof GrowerSums): number => sums.reduce((sum, own) => sum + own[key], 0);
  const [W, R, S] = [total("w"), total("R"), total("S")];
  const difference = total("wd") / W;
  const seDifference = clusteredError(
    sums.map(({ w, wd }) => ({ residual: (wd - difference * w) / W, leverage: w / W })),
  );
  if (!(seDifference > 0)) return refused("NO_VARIATION");
  const t = tQuantile(1 - (1 - level) / 2, df);
  const estimated = (estimate: number, se: number): ClusteredEstimate => ({
    estimate,
    se,
    lower: estimate - t * se,
    upper: estimate + t * se,
    p: 2 * tUpperTail(Math.abs(estimate) / se, df),
  });
  const result = { ...base, difference: estimated(difference, seDifference), reason: null };
  return { ...result, oddsRatio: R === 0 || S === 0 ? null : fieller(sums, t) };
}

function fieller(sums: readonly GrowerSums[], t: number): ClusteredRatio {
  const G = sums.length;
  const R = sums.reduce((sum, own) => sum + own.R, 0);
  const S = sums.reduce((sum, own) => sum + own.S, 0);
  const covariance = (first: "R" | "S", second: "R" | "S"): number => {
    const products = sums.reduce((sum, own) => sum + own[first] * own[second], 0);
    const means = { R: R / G, S: S / G };
    return ((products - G * means[first] * means[second]) * G) / (G - 1);
  };
  const [vRR, vRS, vSS] = [covariance("R", "R"), covariance("R", "S"), covariance("S", "S")];
  // The ψ with (R − ψS)² ≤ t² Var(R − ψS): aψ² − 2bψ + c ≤ 0.
  const [a, b, c] = [S * S - t * t * vSS, R * S - t * t * vRS, R * R - t * t * vRR];
  const root = Math.sqrt(Math.max(0, b * b - a * c));
  // R/S itself is always inside, so that with a ≤ 0 the set goes on to infinity.
  const upper = a > 0 ? (b + root) / a : null;
  const lower = c > 0 ? c / (b + root) : 0;
  const p = 2 * tUpperTail(Math.abs(R - S) / Math.sqrt(vRR - 2 * vRS + vSS), G - 1);
  return { estimate: R / S, lower, upper, p };
}

/** √Σ r²/(1 − h); a grower with all the weight leaves nothing to estimate from and counts as it is. */
function clusteredError(parts: readonly { readonly residual: number; readonly leverage: number }[]): number {
  const variance = parts.reduce(
    (sum, { residual: r, leverage: h }) => sum + (h < 1 ? (r * r) / (1 - h) : r * r),
    0,
  );
  return Math.sqrt(variance);
}

function sumByGrower(outings: readonly BinaryOuting[], first: number, second: number) {
  const byGrower = new Map<number, GrowerSums>();
  let [boxes, compared] = [0, 0];
  for (const { grower, arms, events } of outings) {
    let [n1, x1, n2, x2] = [0, 0, 0, 0];
    for (let i = 0; i < arms.length; i++) {
      if (arms[i] === first) [n1, x1] = [n1 + 1, x1 + events[i]!];
      else if (arms[i] === second) [n2, x2] = [n2 + 1, x2 + events[i]!];
    }
    if (n1 === 0 || n2 === 0) continue;
    const n = n1 + n2;
    const sums = byGrower.get(grower) ?? { w: 0, wd: 0, R: 0, S: 0 };
    sums.w += (n1 * n2) / n;
    sums.wd += (x1 * n2 - x2 * n1) / n;
    sums.R += (x1 * (n2 - x2)) / n;
    sums.S += (x2 * (n1 - x1)) / n;
    byGrower.set(grower, sums);
    boxes += n;
    compared += 1;
  }
  return { byGrower, boxes, compared };
}
