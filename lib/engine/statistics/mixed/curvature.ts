import { type SymmetricMatrix, symmetricEigen } from "../symmetric";
import type { Criterion, Evaluation } from "./criterion";
import { UPPER } from "./minimise";
import type { RatioScale } from "./ratio-scale";
import type { VarianceName } from "./types";

/** Step of the differences on the logarithmic scale: about their relative error, and well above the slope's rounding. */
const STEP = 2e-6;
/** Below this, an eigenvalue of the curvature at unit diagonal counts as flat. */
const FLAT = 1e-5;

/** Below this it falls away from the place, which is then no minimum; rounding alone stays closer to 0. */
const FALLING = -0.01;
/** Second derivatives per level below this are rounding; a variance that shows has about 1/2. */
const LEAST = 1e-4;

export interface Curvature {
  /** Second derivatives of the profiled criterion along the search's coordinates, 0 rows for terms at 0. */
  readonly profiled: readonly (readonly number[])[];
  readonly names: readonly VarianceName[];
  /** Asymptotic covariance of those variances: twice the inverse of the criterion's second derivatives. */
  readonly covariance: readonly (readonly number[])[];
  readonly flat: boolean;
  /** About how far the criterion lies above its minimum: half of slope′·profiled⁻¹·slope; ∞ at a saddle. */
  readonly excess: number;
  readonly evaluations: number;
}

/**
 * The criterion's second derivatives at its minimum by differences of the exact slope, and the covariance
 * of the variances from them. Terms at a bound are taken as known, as lmerTest does with 0 (there the slope along a standard
 * deviation vanishes by symmetry). Along a flat direction the generalised inverse is taken.
 */
export function curvatureAt(
  criterion: Criterion,
  scale: RatioScale,
  x: readonly number[],
  at: Evaluation,
): Curvature {
  const active = [...x.keys()].filter((k) => x[k]! > 0 && x[k]! < UPPER);
  const size = active.length;
  const full = secondDerivatives(criterion, scale, x, at, active);
  const least = [...active.map((k) => LEAST * scale.levels[k]!), 0];
  const { inverse, flat } = scaledInverse(full, least);
  const between = active.map((_, i) =>
    active.map((_, j) => full[i]![j]! - (full[i]![size]! * full[j]![size]!) / full[size]![size]!),
  );
  const profiled = x.map(() => x.map(() => 0));
  active.forEach((k, i) => {
    active.forEach((l, j) => {
      profiled[k]![l] = between[i]![j]!;
    });
  });
  const slope = scale.slopeOf(x, at.slope);
  const ownSlope = active.map((k) => slope[k]!);
  const solved = scaledInverse(between, least);
  // φ_k = σ²λ_k(x_k): its derivatives along x and σ².
  const ratios = scale.ratiosOf(x);
  const jacobian = full.map((_, i) =>
    full.map((_, j) => {
      if (i === size) return j === size ? 1 : 0;
      const k = active[i]!;
      if (j === size) return ratios[scale.terms[k]!];
      return i === j ? at.residual * scale.derivative(k, x[k]!) : 0;
    }),
  );
  return {
    profiled,
    names: [...active.map((k) => scale.terms[k]!), "residual"],
    covariance: sandwich(jacobian, inverse).map((row) => row.map((value) => 2 * value)),
    flat,
    excess: solved.falling ? Number.POSITIVE_INFINITY : sandwich([ownSlope], solved.inverse)[0]![0]! / 2,
    evaluations: size,
  };
}

/** Of the unprofiled criterion, along the active x and then σ²; r² enters it as r²/σ² + df·log σ². */
function secondDerivatives(
  criterion: Criterion,
  scale: RatioScale,
  x: readonly number[],
  at: Evaluation,
  active: readonly number[],
): number[][] {
  const sigma2 = at.residual;
  const size = active.length;
  const slopeAt = (where: readonly number[]) => {
    const there = criterion.evaluate(scale.ratiosOf(where));
    if (there === null) throw new Error("The model has no solution next to its minimum; report the data.");
    return scale.slopeOf(
      where,
      there.logSlope.map((value, k) => value + there.squaresSlope[k]! / sigma2),
    );
  };
  const slope = scale.slopeOf(x, at.slope);
  const rows = active.map((k) => {
    const there = slopeAt(x.map((value, l) => (l === k ? value + STEP : value)));
    return active.map((l) => (there[l]! - slope[l]!) / STEP);
  });
  const squaresSlope = scale.slopeOf(x, at.squaresSlope);
  return Array.from({ length: size + 1 }, (_, i) =>
    Array.from({ length: size + 1 }, (_, j) => {
      if (i < size && j < size) return (rows[i]![j]! + rows[j]![i]!) / 2;
      if (i === size && j === size) return at.df / sigma2 ** 2;
      return -squaresSlope[active[Math.min(i, j)]!]! / sigma2 ** 2;
    }),
  );
}

/**
 * The inverse by eigenvalues at unit diagonal, or less than that where the diagonal is below `least`; flat and
 * falling directions are left out.
 */
function scaledInverse(matrix: SymmetricMatrix, least: readonly number[]) {
  const scale = matrix.map((row, i) => 1 / Math.sqrt(Math.max(Math.abs(row[i]!), least[i]!)));
  const { values, vectors } = symmetricEigen(
    matrix.map((row, i) => row.map((value, j) => value * scale[i]! * scale[j]!)),
  );
  const inverse = matrix.map((row) => row.map(() => 0));
  values.forEach((value, k) => {
    if (value < FLAT) return;
    const vector = vectors[k]!;
    for (let i = 0; i < matrix.length; i++) {
      for (let j = 0; j < matrix.length; j++) {
        inverse[i]![j]! += (vector[i]! * vector[j]! * scale[i]! * scale[j]!) / value;
      }
    }
  });
  return {
    inverse,
    flat: values.some((value) => value < FLAT),
    falling: values.some((value) => value < FALLING),
  };
}

/** JAJ′. */
function sandwich(j: readonly (readonly number[])[], a: readonly (readonly number[])[]): number[][] {
  return j.map((left) =>
    j.map((right) =>
      left.reduce((sum, l, i) => sum + l * right.reduce((inner, r, k) => inner + r * a[i]![k]!, 0), 0),
    ),
  );
}
