import { addCurvature, fitCumulativeLogit, type OrdinalTerm, ordinalTerm } from "./cumulative-logit";
import { fUpperTail } from "./distributions";
import { type Cell, interactionContrasts } from "./interaction-contrasts";
import { generalisedInverse, generalisedQuadraticForm } from "./symmetric";

/** Graded boxes as columns of equal length; numbers from 0, growth 0–4. */
export interface GradedBoxes {
  readonly grower: ArrayLike<number>;
  readonly band: ArrayLike<number>;
  readonly arm: ArrayLike<number>;
  readonly growth: ArrayLike<number>;
}

export interface LogitInteraction {
  readonly method: "CUMULATIVE_LOGIT_SCORE";
  /** U′V⁻U over growers, df its rank; null where `reason` stands. */
  readonly chiSquare: number | null;
  readonly df: number | null;
  /** Of F = χ²(G − q)/(q(G − 1)) on q = df and G − q, G growers. */
  readonly p: number | null;
  readonly growers: number;
  readonly reason: "NO_VARIATION" | "NOT_LINKED" | "SEPARATED" | "ONE_BAND" | "TOO_FEW_GROWERS" | null;
}

/**
 * Do differences between recipes vary over climate groups on the cumulative-logit scale, where the ceiling of
 * growth 0–4 can't make additive effects look like an interaction?
 *
 * The additive model (recipe + group, proportional odds) is fitted and the interaction tested by its efficient score
 * summed by grower, U_g = s_γ − I_γθ I_θθ⁻¹ s_θ, with the growers' centred covariance as in Hotelling's T²: boxes
 * of a grower may depend on each other in any way, and a cell without any growth does no harm, as no interaction
 * has to be estimated. A check beside the mixed model: it averages over growers and outings.
 */
export function logitInteraction(boxes: GradedBoxes): LogitInteraction {
  const { cells, cellOfBox } = cellsOf(boxes);
  const categories = [...new Set(Array.from(boxes.growth))].sort((a, b) => a - b);
  const category = Array.from(boxes.growth, (x) => categories.indexOf(x));
  const growers = new Set(Array.from(boxes.grower)).size;
  const refused = (reason: NonNullable<LogitInteraction["reason"]>): LogitInteraction => {
    return { method: "CUMULATIVE_LOGIT_SCORE", chiSquare: null, df: null, p: null, growers, reason };
  };
  const contrasts = interactionContrasts(cells);
  if (contrasts.length === 0) return refused("ONE_BAND");
  const design = additiveDesign(cells);
  const fit = fitCumulativeLogit({ design, row: cellOfBox, category, categories: categories.length });
  if (!fit.ok) return refused(fit.reason);
  // The whole model's parameters: (α, β) of the additive fit, then the interaction γ at 0.
  const theta = [...fit.thresholds, ...fit.coefficients, ...contrasts.map(() => 0)];
  const terms = cells.map((_, c) => {
    const x = [...design[c]!, ...contrasts.map((contrast) => contrast[c]!)];
    return categories.map((__, j) => ordinalTerm(x, j, categories.length, theta));
  });
  const ofBox = efficientScores(terms, cellOfBox, category, theta.length - contrasts.length);
  const efficient = sumsByGrower(ofBox, cellOfBox, category, boxes.grower);
  const U = contrasts.map((_, i) => efficient.reduce((sum, u) => sum + u[i]!, 0));
  const V = centredSum(efficient, U);
  const { value, rank: q } = generalisedQuadraticForm(U, V);
  if (q === 0 || q < contrasts.length || growers <= 2 * q) return refused("TOO_FEW_GROWERS");
  const chiSquare = value;
  const p = fUpperTail((chiSquare * (growers - q)) / (q * (growers - 1)), q, growers - q);
  return { method: "CUMULATIVE_LOGIT_SCORE", chiSquare, df: q, p, growers, reason: null };
}

function cellsOf({ arm, band }: GradedBoxes): { cells: Cell[]; cellOfBox: Int32Array } {
  const places = new Map<string, number>();
  const cells: Cell[] = [];
  const cellOfBox = Int32Array.from(arm, (a, i) => {
    const key = `${a}/${band[i]}`;
    const known = places.get(key);
    if (known !== undefined) return known;
    places.set(key, cells.length);
    return cells.push({ arm: a, band: band[i]! }) - 1;
  });
  return { cells, cellOfBox };
}

/** Indicators of arms and bands but the first of either; further ones are left out where cells don't link them. */
function additiveDesign(cells: readonly Cell[]): number[][] {
  const arms = [...new Set(cells.map(({ arm }) => arm))].slice(1);
  const bands = [...new Set(cells.map(({ band }) => band))].slice(1);
  return cells.map(({ arm, band }) => [
    ...arms.map((a) => Number(a === arm)),
    ...bands.map((b) => Number(b === band)),
  ]);
}

/** By cell and category, a box's score of γ less what its score of (α, β), `nuisance` numbers, explains of it. */
function efficientScores(
  terms: readonly (readonly OrdinalTerm[])[],
  cellOfBox: Int32Array,
  category: readonly number[],
  nuisance: number,
): Float64Array[][] {
  const size = terms[0]![0]!.score.length;
  const information = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const boxes = terms.map((own) => own.map(() => 0));
  category.forEach((j, i) => {
    boxes[cellOfBox[i]!]![j]! += 1;
  });
  terms.forEach((own, cell) => {
    own.forEach((term, j) => {
      addCurvature(information, term, boxes[cell]![j]!);
    });
  });
  const inverse = generalisedInverse(information.slice(0, nuisance).map((row) => row.slice(0, nuisance)));
  const projection = information
    .slice(nuisance)
    .map((row) => inverse.map((column) => column.reduce((sum, x, k) => sum + x * row[k]!, 0)));
  return terms.map((own) =>
    own.map(({ score }) =>
      Float64Array.from(
        projection,
        (row, i) => score[nuisance + i]! - row.reduce((sum, x, k) => sum + x * score[k]!, 0),
      ),
    ),
  );
}

function sumsByGrower(
  ofBox: readonly (readonly Float64Array[])[],
  cellOfBox: Int32Array,
  category: readonly number[],
  grower: ArrayLike<number>,
): Float64Array[] {
  const sums = new Map<number, Float64Array>();
  category.forEach((j, i) => {
    const score = ofBox[cellOfBox[i]!]![j]!;
    let own = sums.get(grower[i]!);
    if (!own) {
      own = new Float64Array(score.length);
      sums.set(grower[i]!, own);
    }
    for (let k = 0; k < score.length; k++) own[k]! += score[k]!;
  });
  return [...sums.values()];
}

/** G/(G − 1) Σ (U_g − Ū)(U_g − Ū)′, the covariance of the sum U over G growers. */
function centredSum(vectors: readonly Float64Array[], U: readonly number[]): number[][] {
  const G = vectors.length;
  const size = U.length;
  // Every grower adds size² products: a flat array is several times as fast as rows.
  const raw = new Float64Array(size * size);
  for (const u of vectors) {
    for (let a = 0; a < size; a++) {
      const own = u[a]!;
      if (own === 0) continue;
      for (let b = 0; b <= a; b++) raw[a * size + b]! += own * u[b]!;
    }
  }
  return U.map((sumA, a) =>
    U.map((sumB, b) => {
      const sum = raw[Math.max(a, b) * size + Math.min(a, b)]!;
      return ((sum - (sumA * sumB) / G) * G) / (G - 1);
    }),
  );
}
