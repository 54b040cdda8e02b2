import type { PoolShare } from "@/shared/schemas/pool";
import { tQuantile } from "./distributions";
import { growerWarnings } from "./grower-means";
import type { GroupTally, ShareTally } from "./pool-tallies";

/** A share's interval, both ends within 0–1. */
export interface ShareInterval {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Wilson's score interval of a share p from n observations (n > 0 need not be whole), without continuity
 * correction: (p + z²/2n ± z √(p(1 − p)/n + z²/4n²)) / (1 + z²/n).
 */
export function wilsonInterval(p: number, n: number, z: number): ShareInterval {
  const z2 = (z * z) / n;
  const centre = p + z2 / 2;
  const half = Math.sqrt(z2 * (p * (1 - p) + z2 / 4));
  return {
    lower: p === 0 ? 0 : Math.max(0, (centre - half) / (1 + z2)),
    upper: p === 1 ? 1 : Math.min(1, (centre + half) / (1 + z2)),
  };
}

/** A clean take among the boxes where both growth and off-colour were recorded. */
export function cleanTakeShare({ clean }: Pick<GroupTally, "clean">, level: number): PoolShare {
  return clusteredShare(clean, level);
}

/** Lost boxes among all drawn ones. */
export function lossShare({ loss }: Pick<GroupTally, "loss">, level: number): PoolShare {
  return clusteredShare(loss, level);
}

/**
 * The raw share of boxes that are a hit, with Wilson's interval at the effective number of boxes.
 *
 * Boxes of one grower resemble each other, so n of them tell less than n independent ones. The design effect is
 * the ratio of two variances of the share p: the one over growers, linearised for a ratio of totals,
 * v = G/(G−1) · Σ_g (x_g − p n_g)² / n², and that of n independent boxes, p(1 − p)/n (Kish 1965, Survey Sampling,
 * §5.4 and §8.2). The effective number is n / max(1, design effect), so never above n. Where all boxes are alike
 * the effect can't be estimated and one box per grower is counted. As v rests on G − 1 degrees of freedom,
 * Wilson's z is replaced by t(G − 1), after Korn & Graubard (1998, Survey Methodology 24:193–201).
 *
 * A descriptive figure: shares of arms met by different growers are not a fair comparison. No interval from one
 * grower (TOO_FEW_GROWERS).
 */
function clusteredShare(
  { boxes: n, outings, growers, hits, xx, xn, nn }: ShareTally,
  level: number,
): PoolShare {
  const result: PoolShare = {
    method: "WILSON_AT_EFFECTIVE_N",
    boxes: n,
    outings,
    growers,
    count: hits,
    share: null,
    designEffect: null,
    effectiveN: null,
    df: null,
    lower: null,
    upper: null,
    reason: null,
    warnings: growerWarnings(growers),
  };
  if (n === 0) return { ...result, reason: "NO_BOXES" };
  const p = hits / n;
  if (growers === 1) return { ...result, share: p, reason: "TOO_FEW_GROWERS" };
  const df = growers - 1;
  const t = tQuantile(1 - (1 - level) / 2, df);
  if (hits === 0 || hits === n) {
    result.warnings.push("DESIGN_EFFECT_NOT_ESTIMABLE");
    return { ...result, share: p, effectiveN: growers, df, ...wilsonInterval(p, growers, t) };
  }
  // Σ(x − pn)² with p = hits/n over one denominator, so that it is exactly 0 where growers agree.
  const squares = (n * n * xx - 2 * hits * n * xn + hits * hits * nn) / (n * n);
  const overGrowers = ((growers / df) * squares) / (n * n);
  const designEffect = overGrowers / ((p * (1 - p)) / n);
  const effectiveN = n / Math.max(1, designEffect);
  return { ...result, share: p, designEffect, effectiveN, df, ...wilsonInterval(p, effectiveN, t) };
}
