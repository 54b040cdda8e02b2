import type { PoolResult } from "@/shared/schemas/pool";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { type CsvField, csvLine } from "./csv";

/**
 * Columns of the figures of a result. Which of them a line fills goes by its `kind`; differences are
 * `first` − `second`, an empty `band` means over all climate groups; `group` is a season's or a warmth's code.
 */
export const FIGURE_COLUMNS = [
  "kind",
  "band",
  "region",
  "group",
  "first",
  "second",
  "estimate",
  "se",
  "df",
  "lower",
  "upper",
  "p",
  "verdict",
  "boxes",
  "outings",
  "growers",
  "reason",
  "level",
  "engine",
  "cut_sha256",
] as const;

type Figure = Partial<Record<(typeof FIGURE_COLUMNS)[number], CsvField>>;

/** Every figure of a result as CSV, one line each, with the cut and the engine it can be traced by. */
export function figuresCsv(result: PoolResult): string {
  const trace = { engine: result.engine, cut_sha256: result.data.sha256 };
  const level = result.analysis?.level ?? result.level;
  const figures = [...plainFigures(result), ...(result.analysis ? modelFigures(result.analysis) : [])];
  const lines = figures.map((figure) => {
    const whole: Figure = { level, ...figure, ...trace };
    return csvLine(FIGURE_COLUMNS.map((column) => whole[column]));
  });
  return csvLine(FIGURE_COLUMNS) + lines.join("");
}

/** Means over growers, shares of clean growth and of lost boxes: no model in them. */
function plainFigures(result: PoolResult): Figure[] {
  const { level } = result;
  const means = [...result.cells, ...result.regions, ...result.overall].flatMap((summary) => {
    const place = {
      band: "band" in summary ? summary.band : null,
      region: "region" in summary ? summary.region : null,
      first: summary.arm,
      level,
    };
    const { mean, cleanTake } = summary;
    return [
      { kind: "mean-over-growers", ...place, ...mean },
      { kind: "clean-share", ...place, ...cleanTake, estimate: cleanTake.share },
    ] as Figure[];
  });
  const lost = result.loss.map(
    ({ arm, share, ...rest }): Figure => ({
      kind: "lost-share",
      first: arm,
      ...rest,
      level,
      estimate: share,
    }),
  );
  return [...means, ...lost];
}

function modelFigures(analysis: PoolAnalysis): Figure[] {
  const { cells, contrasts, prediction, best, againstReference, factors, moisture, clean } = analysis;
  return [
    ...cells.map(({ arm, ...rest }): Figure => ({ kind: "mean-by-model", first: arm, ...rest })),
    ...cells.flatMap(({ band, arm, chanceBest, chanceBestNextSet }): Figure[] => [
      { kind: "chance-best", band, first: arm, estimate: chanceBest, level: null },
      { kind: "chance-best-next-set", band, first: arm, estimate: chanceBestNextSet, level: null },
    ]),
    ...contrasts.flatMap(({ difference, fixedOuting, shrunken, ...rest }): Figure[] => {
      const { band, first, second } = rest;
      const pair = { band, first, second, level: null };
      return [
        { kind: "difference", ...rest, estimate: difference },
        { kind: "difference-within-sets", ...pair, estimate: fixedOuting.difference, se: fixedOuting.se },
        { kind: "difference-shrunken", ...pair, estimate: shrunken.difference, se: shrunken.se },
      ];
    }),
    ...prediction.flatMap(({ band, first, second, nextSet, trueDifference, reason }): Figure[] => [
      { kind: "prediction-one-set", band, first, second, ...nextSet, reason },
      { kind: "prediction-true-difference", band, first, second, ...trueDifference, reason },
    ]),
    ...best.map(
      ({ arm, difference, mayBeBest, ...rest }): Figure => ({
        kind: "less-best-other",
        first: arm,
        ...rest,
        estimate: difference,
        verdict: mayBeBest === null ? null : mayBeBest ? "MAY_BE_BEST" : "NOT_BEST",
      }),
    ),
    ...againstReference.map(
      ({ arm, reference, difference, ...rest }): Figure => ({
        kind: "less-reference",
        first: arm,
        second: reference,
        ...rest,
        estimate: difference,
      }),
    ),
    ...factors.map(
      ({ factor, difference, ...rest }): Figure => ({
        kind: `factor-${factor}`,
        ...rest,
        estimate: difference,
      }),
    ),
    ...moisture.map(
      ({ band, grain, slope, reason }): Figure => ({
        kind: "growth-per-ten-points-of-moisture",
        band,
        first: grain,
        ...slope,
        estimate: slope.difference,
        reason,
      }),
    ),
    ...clean.map(
      ({ difference, ...rest }): Figure => ({
        kind: "clean-share-difference",
        ...rest,
        estimate: difference,
      }),
    ),
    ...(analysis.seasons?.cells ?? []).map(
      ({ arm, ...rest }): Figure => ({ kind: "mean-by-season", first: arm, ...rest }),
    ),
    ...(analysis.warmth?.cells ?? []).map(
      ({ arm, ...rest }): Figure => ({ kind: "mean-by-warmth", first: arm, ...rest }),
    ),
    ...(analysis.usable?.cells ?? []).map(
      ({ arm, ...rest }): Figure => ({ kind: "usable-grams-by-model", first: arm, ...rest }),
    ),
    ...(analysis.usable?.contrasts ?? []).map(
      ({ difference, ...rest }): Figure => ({
        kind: "usable-grams-difference",
        ...rest,
        estimate: difference,
      }),
    ),
    ...analysis.sensitivity.flatMap(({ kind, contrasts: own }) =>
      own.map(
        ({ difference, ...rest }): Figure => ({
          kind: `difference-${kind.toLowerCase().replaceAll("_", "-")}`,
          ...rest,
          estimate: difference,
        }),
      ),
    ),
  ];
}
