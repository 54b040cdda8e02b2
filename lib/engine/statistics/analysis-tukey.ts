import { studentizedRangeCritical, studentizedRangeUpperTail } from "./studentized-range";
import { type Difference, type SimultaneousDifference, tukeyKramer } from "./tukey-kramer";

/** From so many pairs on, critical values are interpolated. */
const MANY = 12;
/** Below this many degrees of freedom the critical value bends too much for it. */
const LEAST_DF = 6;
const NODES = 7;

/**
 * Tukey–Kramer for all pairs of a family of `groups` means, as `tukeyKramer` gives it pair by pair. With many
 * pairs the critical value, smooth in 1/df, is interpolated between Chebyshev nodes over the range of the pairs'
 * 1/df: it then is right to 1e-7 relative.
 */
export function tukeyFamily(
  differences: readonly Difference[],
  groups: number,
  level: number,
): SimultaneousDifference[] {
  const dfs = differences.map(({ df }) => df);
  if (dfs.length < MANY || Math.min(...dfs) < LEAST_DF)
    return differences.map((one) => tukeyKramer(one, groups, level));
  const critical = interpolated(
    (u) => studentizedRangeCritical(1 - level, groups, 1 / u),
    1 / Math.max(...dfs),
    1 / Math.min(...dfs),
  );
  return differences.map(({ difference, se, df }) => {
    const half = (critical(df) / Math.SQRT2) * se;
    return {
      lower: difference - half,
      upper: difference + half,
      p: studentizedRangeUpperTail((Math.SQRT2 * Math.abs(difference)) / se, groups, df),
    };
  });
}

/** As a function of df: barycentric interpolation in u = 1/df (Berrut & Trefethen 2004, SIAM Review 46:501–517). */
function interpolated(at: (u: number) => number, from: number, to: number): (df: number) => number {
  if (to - from < 1e-12) {
    const value = at(to);
    return () => value;
  }
  const angles = Array.from({ length: NODES }, (_, i) => (Math.PI * (2 * i + 1)) / (2 * NODES));
  const nodes = angles.map((angle) => (from + to) / 2 + ((to - from) / 2) * Math.cos(angle));
  const weights = angles.map((angle, i) => (i % 2 === 0 ? 1 : -1) * Math.sin(angle));
  const values = nodes.map(at);
  return (df) => {
    let [above, below] = [0, 0];
    for (let i = 0; i < NODES; i++) {
      const distance = 1 / df - nodes[i]!;
      if (distance === 0) return values[i]!;
      above += (weights[i]! / distance) * values[i]!;
      below += weights[i]! / distance;
    }
    return above / below;
  };
}
