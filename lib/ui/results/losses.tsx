import { decimal, percent } from "@/lib/ui/format";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import type { ResultsContext } from "./context";
import { FigureTable } from "./figure-table";
import { count, dfFigure, pWords, range, why } from "./figures";

const ALPHA = 0.05;

/** Lost boxes of every recipe, all climate groups together, and whether recipes differ in it. */
export function Losses({ context: { result, nameOf, plainLevel } }: { context: ResultsContext }) {
  const { columns } = words;
  return (
    <div className="max-w-[52em]">
      {result.analysis ? (
        <LossTest test={result.analysis.lossTest} isInterim={result.interim !== null} />
      ) : null}
      <FigureTable
        caption={words.lossCaption}
        columns={[
          { key: "recipe", label: columns.recipe },
          { key: "share", label: words.lossShare, numeric: true },
          { key: "interval", label: words.pairs.interval(plainLevel), numeric: true },
          { key: "lost", label: columns.lost, numeric: true },
          { key: "unmeasured", label: columns.unmeasured, numeric: true },
          { key: "boxes", label: columns.boxes, numeric: true },
          { key: "sets", label: columns.sets, numeric: true },
          { key: "growers", label: columns.growers, numeric: true },
        ]}
        rows={result.loss.map(
          ({ arm, share, lower, upper, reason, lost, unmeasured, boxes, outings, growers }) => ({
            recipe: nameOf(arm),
            share: share === null ? why(reason) : percent(share),
            interval: range({ lower, upper }, percent),
            lost: count(lost),
            unmeasured: count(unmeasured),
            boxes: count(boxes),
            sets: count(outings),
            growers: count(growers),
          }),
        )}
      />
    </div>
  );
}

function LossTest({ test, isInterim }: { test: PoolAnalysis["lossTest"]; isInterim: boolean }) {
  const { p, statistic, df1, df2, reason } = test;
  if (p === null || isInterim)
    return <p className="mb-3">{words.loss.none(why(isInterim ? "INTERIM" : reason))}</p>;
  return (
    <>
      <p>{p < ALPHA ? words.loss.yes(pWords(p)) : words.loss.no(pWords(p))}</p>
      <p className="mb-3 text-[0.9375rem] text-quiet">
        {df1 === null || df2 === null
          ? words.loss.permuted
          : words.loss.test(dfFigure(df1), dfFigure(df2), decimal(statistic ?? 0, 2))}
      </p>
    </>
  );
}
