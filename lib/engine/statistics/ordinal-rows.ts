/** Ordered outcomes with the rows of a design they belong to. */
export interface OrdinalData {
  /** Distinct rows of the design, without a constant; independent columns. */
  readonly design: readonly (readonly number[])[];
  /** Row of `design` of each box. */
  readonly row: ArrayLike<number>;
  /** Category of each box, 0 … categories − 1, every one of them met. */
  readonly category: ArrayLike<number>;
  readonly categories: number;
}

/**
 * ln P(Y = j) of one row x of the design and its derivatives, category by category. By α they concern α_j and α_{j−1}
 * only, by β they are multiples of x: the score is `above`[j] at α_j, −`below`[j] at α_{j−1}, −(above − below)x at β.
 */
export interface OrdinalRow {
  readonly log: Float64Array;
  readonly above: Float64Array;
  readonly below: Float64Array;
  /** Minus the second derivatives: by α_j twice, α_{j−1} twice, and the two together. */
  readonly aboveTwice: Float64Array;
  readonly belowTwice: Float64Array;
  readonly both: Float64Array;
}

/** What every row of the design gives at `theta` = (α, β). */
export function rowsAt(
  design: OrdinalData["design"],
  theta: readonly number[],
  categories: number,
): OrdinalRow[] {
  const thresholds = theta.slice(0, categories - 1);
  const coefficients = theta.slice(categories - 1);
  return design.map((x) => ordinalRow(thresholds, dot(x, coefficients)));
}

function ordinalRow(thresholds: readonly number[], along: number): OrdinalRow {
  const categories = thresholds.length + 1;
  const column = () => new Float64Array(categories);
  const row = {
    log: column(),
    above: column(),
    below: column(),
    aboveTwice: column(),
    belowTwice: column(),
    both: column(),
  };
  // F = P(Y ≤ j − 1), then P(Y ≤ j), with its derivative by α and that one's.
  let [F, f, slope] = [0, 0, 0];
  for (let j = 0; j < categories; j++) {
    const [lowF, lowf, lowSlope] = [F, f, slope];
    F = j === categories - 1 ? 1 : 1 / (1 + Math.exp(along - thresholds[j]!));
    f = F * (1 - F);
    slope = f * (1 - 2 * F);
    const P = F - lowF;
    row.log[j] = Math.log(P);
    row.above[j] = f / P;
    row.below[j] = lowf / P;
    row.aboveTwice[j] = (f / P) ** 2 - slope / P;
    row.belowTwice[j] = (lowf / P) ** 2 + lowSlope / P;
    row.both[j] = (-f * lowf) / (P * P);
  }
  return row;
}

/** Boxes by row of the design and category. */
export type OrdinalCounts = readonly (readonly number[])[];

/** Minus the second derivatives of the log-likelihood by (α, β), both triangles. */
export function informationOf(
  design: OrdinalData["design"],
  rows: readonly OrdinalRow[],
  counts: OrdinalCounts,
): number[][] {
  const edges = counts[0]!.length - 1;
  const information = design[0]!.map((_, a) =>
    informationWith(
      design.map((x) => x[a]!),
      design,
      rows,
      counts,
    ),
  );
  const byThresholds = Array.from({ length: edges }, (_, j) => [
    ...new Array<number>(edges).fill(0),
    ...information.map((row) => row[j]!),
  ]);
  rows.forEach(({ aboveTwice, belowTwice, both }, r) => {
    counts[r]!.forEach((boxes, j) => {
      if (j < edges) byThresholds[j]![j]! += boxes * aboveTwice[j]!;
      if (j > 0) byThresholds[j - 1]![j - 1]! += boxes * belowTwice[j]!;
      if (j === 0 || j === edges) return;
      byThresholds[j]![j - 1]! += boxes * both[j]!;
      byThresholds[j - 1]![j]! += boxes * both[j]!;
    });
  });
  return [...byThresholds, ...information];
}

/** The same by the coefficient of another column of the design, once, and by (α, β). */
export function informationWith(
  column: ArrayLike<number>,
  design: OrdinalData["design"],
  rows: readonly OrdinalRow[],
  counts: OrdinalCounts,
): number[] {
  const edges = counts[0]!.length - 1;
  const information = new Array<number>(edges + design[0]!.length).fill(0);
  rows.forEach(({ aboveTwice, belowTwice, both }, r) => {
    const value = column[r]!;
    if (value === 0) return;
    let total = 0;
    counts[r]!.forEach((boxes, j) => {
      const [above, below] = [boxes * (aboveTwice[j]! + both[j]!), boxes * (belowTwice[j]! + both[j]!)];
      if (j < edges) information[j]! -= value * above;
      if (j > 0) information[j - 1]! -= value * below;
      total += above + below;
    });
    design[r]!.forEach((x, a) => {
      information[edges + a]! += value * total * x;
    });
  });
  return information;
}

/** Of all boxes. */
export function logLikelihood(rows: readonly OrdinalRow[], counts: OrdinalCounts): number {
  return rows.reduce(
    (sum, { log }, r) =>
      counts[r]!.reduce((own, boxes, j) => (boxes === 0 ? own : own + boxes * log[j]!), sum),
    0,
  );
}

/** First derivatives by (α, β). */
export function scoreOf(
  design: OrdinalData["design"],
  rows: readonly OrdinalRow[],
  counts: OrdinalCounts,
): number[] {
  const edges = counts[0]!.length - 1;
  const score = new Array<number>(edges + design[0]!.length).fill(0);
  rows.forEach(({ above, below }, r) => {
    let along = 0;
    counts[r]!.forEach((boxes, j) => {
      if (boxes === 0) return;
      if (j < edges) score[j]! += boxes * above[j]!;
      if (j > 0) score[j - 1]! -= boxes * below[j]!;
      along += boxes * (above[j]! - below[j]!);
    });
    design[r]!.forEach((x, a) => {
      score[edges + a]! -= along * x;
    });
  });
  return score;
}

function dot(x: readonly number[], y: readonly number[]): number {
  return x.reduce((sum, xi, i) => sum + xi * y[i]!, 0);
}
