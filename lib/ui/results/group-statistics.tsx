import { DifferenceIntervals } from "@/lib/ui/charts/difference-intervals";
import { decimal } from "@/lib/ui/format";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import type { PoolAnalysis, PoolContrast } from "@/shared/schemas/pool-analysis";
import { answerOf } from "./answer";
import type { ResultsContext } from "./context";
import { type FigureColumn, FigureTable } from "./figure-table";
import { dfFigure, figure, pFigure, range, signed, why } from "./figures";
import { CleanTable, HsuTable, ReferenceTable } from "./group-comparisons";
import { comparisonOf } from "./pairs";

interface Props {
  band: string;
  where: string;
  analysis: PoolAnalysis;
  context: ResultsContext;
}

/** Beyond this many pairs a table shows those with the leader only: 12 recipes have 66. */
const PAIRS_SHOWN = 66;

const { pairs: pairWords } = words;
const NUMERIC = { numeric: true } as const;

/** Comparisons within a climate group: contrasts with verdicts, spread over growers, the same seen otherwise. */
export function GroupStatistics(props: Props) {
  const { band, analysis, context } = props;
  const all = analysis.contrasts.filter((one) => one.band === band);
  const leader = answerOf(band, analysis, context.minimum).leader?.arm ?? null;
  const shown =
    all.length <= PAIRS_SHOWN ? all : all.filter((one) => one.first === leader || one.second === leader);
  if (all.length === 0)
    return <p className="mb-4">{pairWords.noneShown(why(analysis.model.reason ?? "NO_BOXES"))}</p>;
  return (
    <>
      <div className="grid items-start gap-x-11 *:min-w-0 lg:grid-cols-2">
        {leader ? <BehindLeader {...props} leader={leader} /> : null}
        <div>
          <HsuTable {...props} />
        </div>
      </div>
      <PairTable {...props} pairs={shown} />
      {shown.length < all.length ? <p className="mb-4">{pairWords.some(shown.length, all.length)}</p> : null}
      <SpreadTable {...props} pairs={shown} />
      <BesideTable {...props} pairs={shown} />
      <ReferenceTable {...props} />
      <CleanTable {...props} />
    </>
  );
}

function BehindLeader({ band, analysis, context, leader }: Props & { leader: string }) {
  const { nameOf } = context;
  const rows = analysis.cells.flatMap(({ band: own, arm }) => {
    const found = own === band ? comparisonOf(analysis.contrasts, band, leader, arm) : null;
    return found && found.difference !== null
      ? [{ name: nameOf(arm), difference: found.difference, lower: found.lower, upper: found.upper }]
      : [];
  });
  if (rows.length === 0) return null;
  return (
    <DifferenceIntervals
      title={pairWords.chartTitle(nameOf(leader))}
      rows={rows.sort((a, b) => a.difference - b.difference)}
      margin={analysis.margin}
      note={pairWords.chartNote(analysis.margin === null ? null : decimal(analysis.margin, 2))}
    />
  );
}

type PairProps = Props & { pairs: readonly PoolContrast[] };

function PairTable({ where, analysis, context: { nameOf, level, result }, pairs }: PairProps) {
  const margin = analysis.margin === null ? null : decimal(analysis.margin, 2);
  return (
    <>
      <FigureTable
        caption={pairWords.caption(where, level)}
        columns={[
          { key: "pair", label: pairWords.pair },
          { key: "difference", label: pairWords.difference, ...NUMERIC },
          { key: "interval", label: pairWords.interval(level), ...NUMERIC },
          { key: "se", label: words.columns.se, ...NUMERIC },
          { key: "df", label: words.columns.df, ...NUMERIC },
          { key: "p", label: pairWords.p, ...NUMERIC },
          { key: "verdict", label: pairWords.verdict },
        ]}
        rows={pairs.map((pair) => ({
          pair: words.growers.pair(nameOf(pair.first), nameOf(pair.second)),
          difference: signed(pair.difference),
          interval: range(pair, signed),
          se: figure(pair.se),
          df: dfFigure(pair.df),
          p: pFigure(pair.p),
          verdict: pair.verdict
            ? words.verdict(pair.verdict, nameOf(pair.first), nameOf(pair.second), margin ?? "")
            : why(pair.reason ?? (result.interim ? "INTERIM" : null)),
        }))}
      />
      <p className="-mt-4 mb-5 text-[0.9375rem] text-quiet">{pairWords.margin(margin)}</p>
    </>
  );
}

function SpreadTable({ band, where, analysis, context: { nameOf, level }, pairs }: PairProps) {
  const { spread } = words;
  const shown = new Set(pairs.map(({ first, second }) => `${first} ${second}`));
  const rows = analysis.prediction.filter(
    (one) => one.band === band && one.reason === null && shown.has(`${one.first} ${one.second}`),
  );
  if (rows.length === 0) return null;
  const sd = rows[0]?.sdOverGrowers;
  const columns: FigureColumn[] = [
    { key: "pair", label: pairWords.pair },
    { key: "nextSet", label: spread.nextSet, ...NUMERIC },
    { key: "trueDifference", label: spread.trueDifference, ...NUMERIC },
  ];
  return (
    <>
      <FigureTable
        caption={spread.caption(where, level)}
        columns={columns}
        rows={rows.map((one) => ({
          pair: words.growers.pair(nameOf(one.first), nameOf(one.second)),
          nextSet: range(one.nextSet, signed),
          trueDifference: range(one.trueDifference, signed),
        }))}
      />
      <p className="-mt-4 mb-5 text-[0.9375rem] text-quiet">
        {spread.note} {sd == null ? null : spread.sd(figure(sd))}
      </p>
    </>
  );
}

function BesideTable({ where, context: { nameOf }, pairs }: PairProps) {
  const { beside } = words;
  return (
    <FigureTable
      caption={beside.caption(where)}
      columns={[
        { key: "pair", label: pairWords.pair },
        { key: "main", label: beside.main, ...NUMERIC },
        { key: "fixed", label: beside.fixed, ...NUMERIC },
        { key: "shrunken", label: beside.shrunken, ...NUMERIC },
      ]}
      rows={pairs.map(({ first, second, difference, se, fixedOuting, shrunken }) => ({
        pair: words.growers.pair(nameOf(first), nameOf(second)),
        main: withError({ difference, se }),
        fixed: withError(fixedOuting),
        shrunken: withError(shrunken),
      }))}
    />
  );
}

function withError({ difference, se }: { difference: number | null; se: number | null }): string {
  return difference === null || se === null
    ? words.notThere
    : words.withError(signed(difference), decimal(se, 2));
}
