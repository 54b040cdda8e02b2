import { GrowthTable } from "@/lib/ui/charts/growth-table";
import { decimal, percent, whole } from "@/lib/ui/format";
import { resultMessages } from "@/lib/ui/messages/en/results";
import { type StandingWords, seasonMessages, warmthMessages } from "@/lib/ui/messages/en/results-standing";
import type { ByStanding, PoolAnalysis, ReusedSpots } from "@/shared/schemas/pool-analysis";
import type { ResultsContext } from "./context";
import { FigureTable } from "./figure-table";
import { count, dfFigure, figure, pWords, range, why } from "./figures";
import { Fold } from "./fold";

const NUMERIC = { numeric: true } as const;
const SIGNIFICANT = 0.05;

/** In one sentence, how many seasons an answer rests on. */
export function seasonBasis(analysis: PoolAnalysis | null): string {
  const { basis } = seasonMessages;
  const seasons = analysis?.seasons?.present.length ?? 0;
  if (seasons === 0) return basis.unknown;
  if (seasons === 1) return basis.one;
  return seasons === 2 ? basis.two : basis.more(seasons);
}

interface Props {
  readonly by: ByStanding;
  readonly context: ResultsContext;
}

/** Recipes by season of setting out; then spots used again. */
export function Seasons({ by, reused, context }: Props & { readonly reused: ReusedSpots | undefined }) {
  return (
    <>
      <RecipesBy by={by} words={seasonMessages} context={context} />
      {reused ? <p className="mb-4 max-w-[44em]">{reusedWords(reused)}</p> : null}
    </>
  );
}

/** Recipes by how warm it was after setting out: observed, not drawn. */
export function Warmth({ by, context }: Props) {
  return <RecipesBy by={by} words={warmthMessages} context={context} />;
}

/** Means of every recipe by what boxes stood in, and whether recipes differ otherwise in one than in another. */
function RecipesBy({ by, words, context }: Props & { readonly words: StandingWords }) {
  const { present, cells, p, reason } = by;
  const { nameOf, trial, level } = context;
  if (cells.length === 0) return <p className="mb-4">{words.none(why(reason))}</p>;
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
          cells: present.map((group) => {
            const cell = cells.find((one) => one.group === group && one.arm === code);
            const text = cell ? `${figure(cell.estimate)} (${range(cell)})` : figure(null);
            return { mean: cell?.estimate ?? null, text, isBest: false };
          }),
        }))}
      />
      <Fold kind="detail" title={words.numbers}>
        <NumbersBy by={by} words={words} context={context} />
      </Fold>
    </>
  );
}

function NumbersBy({
  by: { cells, statistic, df1, df2, p },
  words,
  context: { nameOf, level },
}: Props & { readonly words: StandingWords }) {
  return (
    <>
      <FigureTable
        caption={words.caption(level)}
        columns={[
          { key: "group", label: words.column },
          { key: "recipe", label: resultMessages.columns.recipe },
          { key: "mean", label: resultMessages.columns.mean, ...NUMERIC },
          { key: "interval", label: resultMessages.pairs.interval(level), ...NUMERIC },
          { key: "boxes", label: resultMessages.columns.boxes, ...NUMERIC },
          { key: "sets", label: resultMessages.columns.sets, ...NUMERIC },
          { key: "growers", label: resultMessages.columns.growers, ...NUMERIC },
        ]}
        rows={cells.map((cell) => ({
          group: words.name(cell.group),
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
    </>
  );
}

function reusedWords({ reused, outings, reason }: ReusedSpots): string {
  if (reused === null || outings === null) return seasonMessages.reusedHeld(why(reason));
  return reused === 0
    ? seasonMessages.reusedNone
    : seasonMessages.reused(whole(reused), whole(outings), percent(reused / outings));
}
