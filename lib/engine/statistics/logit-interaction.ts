import { countingSort } from "./counting-sort";
import { countBoxes, fitCumulativeLogit } from "./cumulative-logit";
import { fUpperTail } from "./distributions";
import { type Cell, interactionContrasts } from "./interaction-contrasts";
import { informationOf, informationWith, type OrdinalData, rowsAt } from "./ordinal-rows";
import type { PermutationOptions } from "./rank-permutation";
import { signFlipTest, sumsOf } from "./sign-flips";
import { generalisedInverse, generalisedQuadraticForm } from "./symmetric";

/** From so many growers for each degree of freedom F is near enough; with fewer it rejects too seldom. */
const GROWERS_PER_DF_FOR_F = 10;

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
  /** By flips of the growers' signs, or from 10 growers for each df on of F = χ²(G − q)/(q(G − 1)) on q = df and G − q. */
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
export function logitInteraction(boxes: GradedBoxes, options: PermutationOptions): LogitInteraction {
  const { cells, cellOfBox } = cellsOf(boxes);
  const { values, category } = categoriesOf(new Int32Array(boxes.growth));
  const byGrower = boxesByGrower(new Int32Array(boxes.grower));
  const growers = byGrower.start.length - 1;
  const refused = (reason: NonNullable<LogitInteraction["reason"]>): LogitInteraction => {
    return { method: "CUMULATIVE_LOGIT_SCORE", chiSquare: null, df: null, p: null, growers, reason };
  };
  const contrasts = interactionContrasts(cells);
  if (contrasts.length === 0) return refused("ONE_BAND");
  const data = { design: additiveDesign(cells), row: cellOfBox, category, categories: values.length };
  const fit = fitCumulativeLogit(data);
  if (!fit.ok) return refused(fit.reason);
  const scores = efficientScores(data, [...fit.thresholds, ...fit.coefficients], contrasts);
  const perGrower = sumsByGrower(scores, data, byGrower);
  const { U, V } = sumOverGrowers(perGrower, growers);
  const { value: chiSquare, rank: q } = generalisedQuadraticForm(U, V);
  if (q === 0 || q < contrasts.length || growers <= 2 * q) return refused("TOO_FEW_GROWERS");
  const p =
    growers < GROWERS_PER_DF_FOR_F * q
      ? signFlipTest(perGrower, q, options)
      : fUpperTail((chiSquare * (growers - q)) / (q * (growers - 1)), q, growers - q);
  return { method: "CUMULATIVE_LOGIT_SCORE", chiSquare, df: q, p, growers, reason: null };
}

/** Cells with boxes in the order met, and the cell of each box. */
function cellsOf({ arm, band }: GradedBoxes): { cells: Cell[]; cellOfBox: Int32Array } {
  const arms = largestOf(arm) + 1;
  const places = new Int32Array(arms * (largestOf(band) + 1)).fill(-1);
  const cells: Cell[] = [];
  const cellOfBox = new Int32Array(arm.length);
  for (let i = 0; i < arm.length; i++) {
    const key = band[i]! * arms + arm[i]!;
    if (places[key]! < 0) places[key] = cells.push({ arm: arm[i]!, band: band[i]! }) - 1;
    cellOfBox[i] = places[key]!;
  }
  return { cells, cellOfBox };
}

/** The outcomes met, ascending, and which of them each box has. */
function categoriesOf(growth: Int32Array): { values: number[]; category: Int32Array } {
  const met = new Uint8Array(largestOf(growth) + 1);
  for (let i = 0; i < growth.length; i++) met[growth[i]!] = 1;
  const values = [...met.keys()].filter((value) => met[value] === 1);
  const place = Int32Array.from(met.keys(), (value) => values.indexOf(value));
  return { values, category: growth.map((value) => place[value]!) };
}

/** Box numbers grower by grower, and where each grower's begin, with their number at the end. */
interface BoxesByGrower {
  readonly boxes: Int32Array;
  readonly start: readonly number[];
}

function boxesByGrower(grower: Int32Array): BoxesByGrower {
  const boxes = countingSort(
    grower.map((_, box) => box),
    grower,
    largestOf(grower) + 1,
  );
  const start: number[] = [];
  for (let i = 0; i < boxes.length; i++)
    if (i === 0 || grower[boxes[i]!] !== grower[boxes[i - 1]!]) start.push(i);
  start.push(boxes.length);
  return { boxes, start };
}

function largestOf(numbers: ArrayLike<number>): number {
  let largest = 0;
  for (let i = 0; i < numbers.length; i++) if (numbers[i]! > largest) largest = numbers[i]!;
  return largest;
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

/**
 * By cell and category (row cell · categories + category, a number per contrast), a box's score of γ at γ = 0 less what
 * its score of θ = (α, β) explains of it.
 */
function efficientScores(
  data: OrdinalData,
  theta: readonly number[],
  contrasts: readonly Float64Array[],
): Float64Array {
  const { design, categories } = data;
  const [edges, q] = [categories - 1, contrasts.length];
  const rows = rowsAt(design, theta, categories);
  const counts = countBoxes(data);
  const inverse = generalisedInverse(informationOf(design, rows, counts));
  const projection = contrasts.map((contrast) => {
    const across = informationWith(contrast, design, rows, counts);
    return inverse.map((column) => column.reduce((sum, x, k) => sum + x * across[k]!, 0));
  });
  const scores = new Float64Array(design.length * categories * q);
  rows.forEach(({ above, below }, cell) => {
    const x = design[cell]!;
    const alongX = projection.map((row) => x.reduce((sum, xa, a) => sum + xa * row[edges + a]!, 0));
    for (let j = 0; j < categories; j++) {
      const fall = above[j]! - below[j]!;
      const at = (cell * categories + j) * q;
      for (let i = 0; i < q; i++) {
        let own = -fall * (contrasts[i]![cell]! - alongX[i]!);
        if (j < edges) own -= projection[i]![j]! * above[j]!;
        if (j > 0) own += projection[i]![j - 1]! * below[j]!;
        scores[at + i] = own;
      }
    }
  });
  return scores;
}

/** Each grower's score, one after the other. */
function sumsByGrower(
  scores: Float64Array,
  { row, category, categories, design }: OrdinalData,
  { boxes, start }: BoxesByGrower,
): Float64Array {
  const q = scores.length / (design.length * categories);
  const sums = new Float64Array((start.length - 1) * q);
  for (let g = 0, own = 0; own < sums.length; g++, own += q) {
    for (let i = start[g]!; i < start[g + 1]!; i++) {
      const at = (row[boxes[i]!]! * categories + category[boxes[i]!]!) * q;
      for (let k = 0; k < q; k++) sums[own + k]! += scores[at + k]!;
    }
  }
  return sums;
}

/** The scores' sum U over G growers and its covariance V = G/(G − 1) Σ (U_g − Ū)(U_g − Ū)′. */
function sumOverGrowers(
  perGrower: Float64Array,
  G: number,
): { readonly U: number[]; readonly V: number[][] } {
  const { total: U, squares } = sumsOf(perGrower, perGrower.length / G);
  const V = squares.map((row, a) => row.map((sum, b) => ((sum - (U[a]! * U[b]!) / G) * G) / (G - 1)));
  return { U: Array.from(U), V };
}
