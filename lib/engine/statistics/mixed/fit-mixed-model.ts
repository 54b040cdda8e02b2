import type { PoolColumns } from "../columns";
import { type AvailabilityGroups, availabilityGroups } from "./availability";
import { Criterion, type Evaluation } from "./criterion";
import { sandwich } from "./dense";
import { gatherSufficient } from "./gather";
import { UPPER } from "./minimise";
import { orderByOuting } from "./outing-order";
import { type RatioSearch, searchRatios } from "./search-ratios";
import { inseparableTerms } from "./separability";
import type { SufficientData } from "./sufficient";
import {
  type MixedCell,
  type MixedFit,
  type MixedFitResult,
  type MixedOptions,
  type MixedSolution,
  type MixedWarning,
  RANDOM_TERMS,
  type RandomTerm,
} from "./types";

const RARE_SET_GROWERS = 3;

/**
 * Fits the pooled linear mixed model by REML:
 *
 *     outcome = cell mean (arm × band) + availability set × band + outing + grower + grower × arm + residual
 *
 * the last four random and normal. Boxes without a measured outcome are left out and counted. The criterion is
 * profiled over fixed effects and residual variance (Bates, Mächler, Bolker & Walker 2015, J. Stat. Softw. 67(1),
 * §3.4) and minimised over the variance ratios with its exact slope. Time is linear in boxes.
 * Throws when an outing belongs to two growers, bands or availability sets.
 */
export function fitMixedModel(columns: PoolColumns, options: MixedOptions = {}): MixedFitResult {
  const order = orderByOuting(columns);
  if (order.rows.length === 0) return { ok: false, reason: "NO_BOXES" };
  const fixedOutings = options.fixedOutings ?? false;
  const sets = fixedOutings
    ? null
    : availabilityGroups(columns, order, options.rareSetGrowers ?? RARE_SET_GROWERS);
  const data = gatherSufficient(columns, order, sets);
  const free = freeColumns(data, sets);
  const criterion = new Criterion({ data, free, fixedOutings });
  const df = data.boxes - free.length - (fixedOutings ? data.outingBoxes.length : 0);
  if (df <= 0) return { ok: false, reason: "TOO_FEW_BOXES" };
  const plain = varies(columns, data) ? criterion.evaluate({ outing: 0, grower: 0, growerArm: 0 }) : null;
  if (plain === null) return { ok: false, reason: "NO_VARIATION" };

  const asked = RANDOM_TERMS.filter((term) => options.random?.includes(term) ?? true);
  const usable = asked.filter((term) => !fixedOutings || term === "growerArm");
  const lost = lostTerms(data, usable, plain);
  const terms = usable.filter((term) => lost.every((warning) => warning.term !== term));
  const search = searchRatios(criterion, terms);
  const warnings = [...(sets?.warnings ?? []), ...lost, ...searchWarnings(search, terms)];
  const { evaluation, curvature } = search;
  const varianceOf = (term: RandomTerm) =>
    terms.includes(term) ? evaluation.ratios[term] * evaluation.residual : null;
  const cells = data.cells.map((cell) => ({
    ...cell,
    band: columns.labels.band[cell.band]!,
    arm: columns.labels.arm[cell.arm]!,
  }));
  const fit: MixedFit = {
    method: "REML",
    random: asked,
    fixedOutings,
    boxes: data.boxes,
    outings: data.outingBoxes.length,
    growers: data.growerCount,
    unmeasured: columns.n - data.boxes,
    criterion: evaluation.criterion,
    evaluations: search.evaluations + 1,
    startEvaluations: search.startEvaluations,
    converged: search.converged,
    warnings,
    variance: {
      outing: varianceOf("outing"),
      grower: varianceOf("grower"),
      growerArm: varianceOf("growerArm"),
      residual: evaluation.residual,
    },
    varianceCovariance: { names: curvature.names, matrix: curvature.covariance },
    cells,
    solution: {
      labels: columns.labels,
      problem: criterion.problem,
      evaluation,
      covarianceSlopes: evaluation.squares.map((square) => sandwich(evaluation.inverse, square)),
      columnOf: columnsByName(cells),
      setGroups: sets?.groups ?? [],
    },
  };
  return { ok: true, fit };
}

function columnsByName(cells: readonly MixedCell[]): MixedSolution["columnOf"] {
  const keyOf = (band: string, arm: string): string => JSON.stringify([band, arm]);
  const columns = new Map(cells.map(({ band, arm }, column) => [keyOf(band, arm), column]));
  return (band, arm) => columns.get(keyOf(band, arm)) ?? null;
}

function searchWarnings(search: RatioSearch, terms: readonly RandomTerm[]): MixedWarning[] {
  const { x, evaluation, curvature, converged } = search;
  const warnings: MixedWarning[] = terms
    .filter((term) => evaluation.ratios[term] === 0)
    .map((term) => ({ code: "ZERO", term }));
  if (curvature.flat) warnings.push({ code: "FLAT" });
  if (!converged) warnings.push({ code: "NOT_CONVERGED" });
  if (x.some((value) => value === UPPER)) warnings.push({ code: "RESIDUAL_VANISHES" });
  return warnings;
}

/**
 * The fixed columns to estimate: all but one reference per linked part. Cells and availability groups of a band
 * that chains of outings link share one superfluous constant, so the part's commonest availability group is its
 * reference; with fixed outings a part's constant is in the outings, and its first cell is the reference.
 */
function freeColumns(data: SufficientData, sets: AvailabilityGroups | null): Int32Array {
  const referenced = new Set<number>();
  const free: number[] = [];
  for (let column = 0; column < data.columnCount; column++) {
    const part = data.byOuting.groupOf(column);
    const mayBeReference = sets === null || column >= data.cells.length;
    if (mayBeReference && !referenced.has(part)) referenced.add(part);
    else free.push(column);
  }
  return Int32Array.from(free);
}

function varies(columns: PoolColumns, data: SufficientData): boolean {
  const squares = data.growerSquares.reduce((sum, value) => sum + value, 0);
  let largest = 0;
  for (let row = 0; row < columns.n; row++) largest = Math.max(largest, Math.abs(columns.outcome[row]! || 0));
  return squares > 1e-24 * largest * largest * data.boxes;
}

/** Terms that can't be told from others by the layout, or from the fixed effects (no contrast free of them is left). */
function lostTerms(data: SufficientData, terms: readonly RandomTerm[], plain: Evaluation) {
  const swallowed = terms.filter((term) => {
    const k = RANDOM_TERMS.indexOf(term);
    return plain.logSlope[k]! <= 1e-9 * plain.traces[k]!;
  });
  const rest = terms.filter((term) => !swallowed.includes(term));
  return [
    ...swallowed.map((term) => ({ code: "NOT_SEPARABLE", term, within: [] }) as const),
    ...inseparableTerms(data, rest).map((lost) => ({ code: "NOT_SEPARABLE", ...lost }) as const),
  ];
}
