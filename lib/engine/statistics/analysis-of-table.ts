import type { FittedCell, PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { graderAgreement } from "./analysis-agreement";
import { cellChances, comparisonsWithBest, comparisonsWithReference, pointsFor } from "./analysis-best";
import { cleanContrasts, cleanTests } from "./analysis-clean";
import { pairContrasts, pairPredictions, withFixedOutings, withShrunken } from "./analysis-contrasts";
import { factorEffects, moistureCurves } from "./analysis-factors";
import { familiesByBand } from "./analysis-family";
import { cellsIn, estimatedOf, NO_ESTIMATE } from "./analysis-figures";
import { growerViews } from "./analysis-growers";
import { bandInteraction } from "./analysis-interaction";
import { hasFixedOutingGap, modelRecord } from "./analysis-model";
import type { AnalysisPlan } from "./analysis-plan";
import { sensitivityFits } from "./analysis-sensitivity";
import { reusedSpots, seasonResults, warmthResults } from "./analysis-standing";
import { usableGrain } from "./analysis-usable";
import type { PoolColumns } from "./columns";
import { lossTest } from "./loss-test";
import { cellMean } from "./mixed/contrasts";
import { fitMixedModel } from "./mixed/fit-mixed-model";
import { growerArmPosterior } from "./mixed/prediction";
import type { MixedFit, MixedRefusal } from "./mixed/types";
import type { PoolExtras } from "./pool-extras";
import type { PoolTable } from "./pool-table";

/** With more growers the variances are known so well that Satterthwaite's df say the rest of it. */
const POSTERIOR_GROWERS = 400;

/**
 * The mixed model of a table and everything that rests on it, the table being in its canonical order. Equal tables,
 * extras and plans give equal analyses.
 */
export function analyseTable(table: PoolTable, extras: PoolExtras, plan: AnalysisPlan): PoolAnalysis {
  const { columns } = table;
  const { level, margin, seed, primary, random, permutations } = plan;
  const result = fitMixedModel(columns, { random });
  const base = {
    level,
    margin,
    seed,
    primary,
    clean: cleanContrasts(table, level),
    cleanTests: cleanTests(table, { seed: `${seed}/clean`, permutations }),
    lossTest: lossTest(columns, { seed: `${seed}/loss`, permutations }),
    agreement: graderAgreement(columns, extras, plan),
    usable: usableGrain(columns, extras, plan),
    seasons: plan.sensitivity && extras.season ? seasonResults(columns, extras.season, plan) : undefined,
    warmth: plan.sensitivity && extras.warmth ? warmthResults(columns, extras.warmth, plan) : undefined,
    reusedSpots: extras.reusedSpot ? reusedSpots(columns, extras.reusedSpot) : undefined,
  };
  const model = modelRecord(result, random);
  if (!result.ok) return { ...base, model, ...withoutFit(result.reason, columns) };
  const { fit } = result;
  const priorScale = priorScaleOf(columns);
  const families = familiesByBand(fit);
  const points = pointsFor(families, plan);
  const fixed = plan.sensitivity ? fitMixedModel(columns, { random, fixedOutings: true }) : null;
  const contrasts = withFixedOutings(
    withShrunken(pairContrasts(fit, families, plan), priorScale),
    fixed?.ok ? fixed.fit : null,
  );
  const needsPosterior = fit.variance.growerArm !== null && fit.growers <= POSTERIOR_GROWERS;
  const posterior = needsPosterior && contrasts.length > 0 ? growerArmPosterior(fit) : null;
  const cells = fittedCells(fit, columns, cellChances(fit, families, points, plan, priorScale), level);
  return {
    ...base,
    model: hasFixedOutingGap(contrasts)
      ? { ...model, warnings: [...model.warnings, "FIXED_OUTING_GAP"] }
      : model,
    cells,
    contrasts,
    prediction: pairPredictions(fit, contrasts, posterior, plan),
    best: comparisonsWithBest(fit, families, points, plan),
    againstReference: comparisonsWithReference(fit, families, points, plan),
    interaction: bandInteraction(fit, columns, contrasts, plan),
    factors: factorEffects(fit, plan),
    moisture: moistureCurves(fit, plan),
    sensitivity: fixed ? sensitivityFits(columns, extras, contrasts, plan, fixed) : [],
    growers: plan.byGrower ? growerViews(fit, cells, contrasts, plan) : [],
  };
}

/** Growth runs from 0 to 4; of another outcome half a class is taken to be what it is of growth's usual spread. */
const HALF_A_CLASS = 0.5;
const USUAL_SPREAD_OF_GROWTH = 1.25;

/** The scale of what is believed beforehand of differences between arms, in units of the outcome. */
function priorScaleOf({ outcome }: PoolColumns): number {
  let [n, mean, squares, growth] = [0, 0, 0, true];
  for (let row = 0; row < outcome.length; row++) {
    const y = outcome[row]!;
    if (Number.isNaN(y)) continue;
    growth &&= y >= 0 && y <= 4 && Number.isInteger(y);
    n++;
    const step = y - mean;
    mean += step / n;
    squares += step * (y - mean);
  }
  const spread = Math.sqrt(squares / Math.max(1, n - 1));
  return growth ? HALF_A_CLASS : (HALF_A_CLASS / USUAL_SPREAD_OF_GROWTH) * spread;
}

/** Every cell with boxes in the table, band by band; those without a measured box have no mean. */
function fittedCells(
  fit: MixedFit,
  columns: PoolColumns,
  chanceOf: ReturnType<typeof cellChances>,
  level: number,
): FittedCell[] {
  return cellsIn(columns).map(({ band, arm }): FittedCell => {
    const fitted = fit.cells.find((cell) => cell.band === band && cell.arm === arm);
    const chance = chanceOf(band, arm);
    return {
      band,
      arm,
      boxes: fitted?.boxes ?? 0,
      outings: fitted?.outings ?? 0,
      growers: fitted?.growers ?? 0,
      ...estimatedOf(cellMean(fit, band, arm), { level, growers: fit.growers }),
      chanceBest: chance?.ofMean ?? null,
      chanceBestNextSet: chance?.ofNextSet ?? null,
    };
  });
}

/** What rests on the model where none could be fitted. */
function withoutFit(reason: MixedRefusal, columns: PoolColumns) {
  const none = { statistic: null, df1: null, df2: null, p: null };
  const noChance = { chanceBest: null, chanceBestNextSet: null };
  const noBoxes = { boxes: null, outings: null, growers: null };
  return {
    cells: cellsIn(columns).map((cell) => ({ ...cell, ...noBoxes, ...NO_ESTIMATE, ...noChance, reason })),
    contrasts: [],
    prediction: [],
    best: [],
    againstReference: [],
    interaction: {
      method: "WALD_F" as const,
      ...none,
      crossover: [],
      cumulativeLogit: { chiSquare: null, df: null, p: null, reason },
      reason,
    },
    factors: [],
    moisture: [],
    sensitivity: [],
    growers: [],
  };
}
