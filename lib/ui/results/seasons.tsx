import { GrowthTable } from "@/lib/ui/charts/growth-table";
import { decimal, percent, whole } from "@/lib/ui/format";
import { resultMessages } from "@/lib/ui/messages/en/results";
import { seasonMessages as words } from "@/lib/ui/messages/en/results-seasons";
import type { PoolAnalysis, ReusedSpots, SeasonResults } from "@/shared/schemas/pool-analysis";
import type { ResultsContext } from "./context";
import { FigureTable } from "./figure-table";
import { count, dfFigure, figure, pWords, range, why } from "./figures";
import { Fold } from "./fold";

const NUMERIC = { numeric: true } as const;
const SIGNIFICANT = 0.05;

/** In one sentence, how many seasons an answer rests on. */
export function seasonBasis(analysis: PoolAnalysis | null): string {
  const seasons = analysis?.seasons?.present.length ?? 0;
  if (seasons === 0) return words.basis.unknown;
  if (seasons === 1) return words.basis.one;
  return seasons === 2 ? words.basis.two : words.basis.more(seasons);
}

/** Recipes by season and whether they differ otherwise in one than in another; then spots used again. */
export function Seasons({
  seasons,
  reused,
  context,
}: {
  readonly seasons: SeasonResults;
  readonly reused: ReusedSpots | undefined;
  readonly context: ResultsContext;
}) {
  return (
    <>
      {seasons.cells.length > 0 ? (
        <BySeason seasons={seasons} context={context} />
      ) : (
        <p className="mb-4">{words.none(why(seasons.reason))}</p>
      )}
      {reused ? <p className="mb-4 max-w-[44em]">{reusedWords(reused)}</p> : null}
    </>
  );
}

function BySeason({
  seasons: { present, cells, statistic, df1, df2, p, reason },
  context: { nameOf, trial, level },
}: {
  readonly seasons: SeasonResults;
  readonly context: ResultsContext;
}) {
  const cellOf = (season: string, arm: string) =>
    cells.find((cell) => cell.season === season && cell.arm === arm);
  return (
    <>
      <p className="mb-3 max-w-[44em]">
        {p === null ? words.none(why(reason)) : (p < SIGNIFICANT ? words.yes : words.no)(pWords(p))}
      </p>
      <GrowthTable
        caption={words.caption(level)}
        corner={resultMessages.columns.recipe}
        columns={present.map(words.name)}
        rows={trial.recipes.map(({ code }) => ({
          name: nameOf(code),
          cells: present.map((season) => {
            const cell = cellOf(season, code);
            const mean = cell?.estimate ?? null;
            return { mean, text: cell ? `${figure(mean)} (${range(cell)})` : figure(null), isBest: false };
          }),
        }))}
      />
      <Fold kind="detail" title={words.numbers}>
        <FigureTable
          caption={words.caption(level)}
          columns={[
            { key: "season", label: words.season },
            { key: "recipe", label: resultMessages.columns.recipe },
            { key: "mean", label: resultMessages.columns.mean, ...NUMERIC },
            { key: "interval", label: resultMessages.pairs.interval(level), ...NUMERIC },
            { key: "boxes", label: resultMessages.columns.boxes, ...NUMERIC },
            { key: "sets", label: resultMessages.columns.sets, ...NUMERIC },
            { key: "growers", label: resultMessages.columns.growers, ...NUMERIC },
          ]}
          rows={cells.map((cell) => ({
            season: words.name(cell.season),
            recipe: nameOf(cell.arm),
            mean: cell.estimate === null ? why(cell.reason) : figure(cell.estimate),
            interval: range(cell),
            boxes: count(cell.boxes),
            sets: count(cell.outings),
            growers: count(cell.growers),
          }))}
        />
        {p === null || statistic === null ? null : (
          <p className="mb-2">{words.test(dfFigure(df1), dfFigure(df2), decimal(statistic, 2), pWords(p))}</p>
        )}
        <p className="mb-4 max-w-[44em] text-[0.9375rem] text-quiet">{words.note}</p>
      </Fold>
    </>
  );
}

function reusedWords({ reused, outings, reason }: ReusedSpots): string {
  if (reused === null || outings === null) return words.reusedHeld(why(reason));
  return reused === 0
    ? words.reusedNone
    : words.reused(whole(reused), whole(outings), percent(reused / outings));
}
