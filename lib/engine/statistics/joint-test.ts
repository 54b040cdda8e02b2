import { fUpperTail } from "./distributions";
import { type SymmetricMatrix, symmetricEigen } from "./symmetric";

export interface JointTest {
  readonly statistic: number;
  readonly df1: number;
  readonly df2: number;
  readonly p: number;
}

/** Below this share of the largest an eigenvalue counts as zero, as in symmetric.ts. */
const RELATIVE_ZERO = 1e-10;

/**
 * Are all the contrasts zero? With L the `contrasts` (one per row, over the estimates), F = (Lβ)′(LVL′)⁻(Lβ)/q on q,
 * the rank of LVL′, and df2 degrees of freedom. The form splits along the eigenvectors of LVL′ into q squared
 * t statistics; `dfOf` gives the degrees of freedom of each such contrast, and df2 = 2E/(E − q) with
 * E = Σ df/(df − 2) over those with df > 2 matches the expectation (Fai & Cornelius 1996, Journal of Statistical
 * Computation and Simulation 54:363–378). Null when no contrast has a variance, or df2 can't be had.
 */
export function jointTest(
  estimates: readonly number[],
  covariance: SymmetricMatrix,
  contrasts: readonly (readonly number[])[],
  dfOf: (contrast: readonly number[]) => number,
): JointTest | null {
  const LV = contrasts.map((l) => covariance.map((column) => dot(l, column)));
  const { values, vectors } = symmetricEigen(LV.map((row) => contrasts.map((l) => dot(row, l))));
  const zero = RELATIVE_ZERO * Math.max(0, ...values);
  const kept = values.flatMap((variance, j) => {
    if (variance <= zero) return [];
    const l = estimates.map((_, e) => vectors[j]!.reduce((sum, x, c) => sum + x * contrasts[c]![e]!, 0));
    return [{ t2: dot(l, estimates) ** 2 / variance, df: dfOf(l) }];
  });
  const q = kept.length;
  if (q === 0) return null;
  const statistic = kept.reduce((sum, { t2 }) => sum + t2, 0) / q;
  const df2 = denominator(kept.map(({ df }) => df));
  return df2 === null ? null : { statistic, df1: q, df2, p: fUpperTail(statistic, q, df2) };
}

function denominator(dfs: readonly number[]): number | null {
  if (dfs.length === 1 || dfs.every((df) => df === dfs[0])) return dfs[0]! > 0 ? dfs[0]! : null;
  const E = dfs.reduce((sum, df) => sum + (df > 2 ? df / (df - 2) : 0), 0);
  return E > dfs.length ? (2 * E) / (E - dfs.length) : null;
}

/** Where a cell of the table arm × band stands. */
export interface Cell {
  readonly arm: number;
  readonly band: number;
}

/**
 * Contrasts of the cells that are zero exactly when arms and bands add up: an orthonormal basis of what the additive
 * model (arm + band) leaves of the cells. Empty where the cells, however many are missing, hold no interaction.
 */
export function interactionContrasts(cells: readonly Cell[]): number[][] {
  const same = cells.map((a) => cells.map((b) => Number(a.arm === b.arm) + Number(a.band === b.band)));
  const { values, vectors } = symmetricEigen(same);
  const zero = RELATIVE_ZERO * Math.max(1, ...values);
  return vectors.filter((_, j) => values[j]! <= zero).map((vector) => [...vector]);
}

function dot(x: readonly number[], y: readonly number[]): number {
  return x.reduce((sum, xi, i) => sum + xi * y[i]!, 0);
}
