import { GrowthTable } from "@/lib/ui/charts/growth-table";
import { decimal, whole } from "@/lib/ui/format";
import { resultMessages } from "@/lib/ui/messages/en/results";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import type { ResultsContext } from "./context";
import { FigureTable } from "./figure-table";
import { count, dfFigure, figure, pFigure, pWords, why } from "./figures";
import { Fold } from "./fold";
import { RankTest } from "./rank-test";

const words = resultMessages.everywhere;
const ALPHA = 0.05;

/** Every recipe in every climate group, and whether differences or the ranking vary between groups. */
export function Everywhere({ context }: { context: ResultsContext }) {
  const { analysis, interim } = context.result;
  return (
    <>
      <RecipesByGroup context={context} />
      {analysis ? (
        interim ? (
          <p className="mb-4">{words.none(why("INTERIM"))}</p>
        ) : (
          <Interaction interaction={analysis.interaction} nameOf={context.nameOf} />
        )
      ) : null}
      <Fold kind="detail" title={resultMessages.statistician.title} note={resultMessages.testAllNote}>
        <RankTest rank={context.result.rank} showsP={!interim} />
        {analysis && !interim ? (
          <Crossovers crossover={analysis.interaction.crossover} nameOf={context.nameOf} />
        ) : null}
      </Fold>
    </>
  );
}

function RecipesByGroup({
  context: { groups, groupName, nameOf, result, trial },
}: {
  context: ResultsContext;
}) {
  const meanOf = (band: string, arm: string): number | null => {
    if (result.analysis && result.analysis.cells.length > 0) {
      return result.analysis.cells.find((cell) => cell.band === band && cell.arm === arm)?.estimate ?? null;
    }
    return result.cells.find((cell) => cell.band === band && cell.arm === arm)?.mean.estimate ?? null;
  };
  const arms = trial.recipes.map(({ code }) => code);
  const highest = new Map(
    groups.map(({ code }) => [code, Math.max(...arms.map((arm) => meanOf(code, arm) ?? -1))]),
  );
  return (
    <>
      <GrowthTable
        caption={words.caption}
        corner={resultMessages.columns.recipe}
        columns={groups.map(({ code }) => groupName(code))}
        rows={arms.map((arm) => ({
          name: nameOf(arm),
          cells: groups.map(({ code }) => {
            const mean = meanOf(code, arm);
            const isBest = mean !== null && mean === highest.get(code);
            return { mean, text: figure(mean), isBest };
          }),
        }))}
      />
      <p className="-mt-2 mb-4 text-[0.9375rem] text-quiet">{words.best}</p>
    </>
  );
}

function Interaction({
  interaction,
  nameOf,
}: {
  interaction: PoolAnalysis["interaction"];
  nameOf: (arm: string) => string;
}) {
  const { p, statistic, df1, df2, reason, crossover, cumulativeLogit: logit } = interaction;
  const turned = crossover.filter((one) => one.p !== null && one.p < ALPHA);
  const tested = crossover.filter((one) => one.p !== null);
  const pair = (one: { first: string; second: string }) =>
    words.crossoverPair(nameOf(one.first), nameOf(one.second));
  return (
    <div className="mb-4 max-w-[52em]">
      <p className="mb-1">
        {p === null ? words.none(why(reason)) : p < ALPHA ? words.yes(pWords(p)) : words.no(pWords(p))}
      </p>
      {tested.length > 0 ? (
        <p className="mb-1">{turned.length > 0 ? words.crossoverYes(turned.map(pair)) : words.crossoverNo}</p>
      ) : null}
      {p !== null && statistic !== null ? (
        <p className="text-[0.9375rem] text-quiet">
          {words.test(dfFigure(df1), dfFigure(df2), decimal(statistic, 2), pWords(p))}{" "}
          {logit.p === null || logit.chiSquare === null
            ? words.logitNone(why(logit.reason))
            : words.logit(whole(logit.df ?? 0), decimal(logit.chiSquare, 2), pWords(logit.p))}
        </p>
      ) : null}
    </div>
  );
}

function Crossovers({
  crossover,
  nameOf,
}: {
  crossover: PoolAnalysis["interaction"]["crossover"];
  nameOf: (arm: string) => string;
}) {
  const tested = crossover.filter((one) => one.p !== null);
  if (tested.length === 0) return null;
  return (
    <FigureTable
      caption={words.crossoverCaption}
      columns={[
        { key: "pair", label: resultMessages.pairs.pair },
        { key: "bands", label: words.crossoverGroups, numeric: true },
        { key: "statistic", label: words.crossoverStatistic, numeric: true },
        { key: "p", label: resultMessages.pairs.p, numeric: true },
      ]}
      rows={tested.map((one) => ({
        pair: resultMessages.growers.pair(nameOf(one.first), nameOf(one.second)),
        bands: count(one.bands),
        statistic: figure(one.statistic),
        p: pFigure(one.p),
      }))}
    />
  );
}
