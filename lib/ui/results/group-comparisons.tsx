import { resultMessages as words } from "@/lib/ui/messages/en/results";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import type { ResultsContext } from "./context";
import { FigureTable } from "./figure-table";
import { count, dfFigure, figure, pFigure, range, signed, why } from "./figures";

interface Props {
  band: string;
  where: string;
  analysis: PoolAnalysis;
  context: ResultsContext;
}

const { pairs: pairWords, columns } = words;
const NUMERIC = { numeric: true } as const;

/** Each recipe with the best of the others. */
export function HsuTable({ band, where, analysis, context: { nameOf, level } }: Props) {
  const { best } = words;
  const rows = analysis.best.filter((one) => one.band === band && one.difference !== null);
  if (rows.length === 0) return null;
  return (
    <>
      <FigureTable
        caption={best.caption(where, level)}
        columns={[
          { key: "recipe", label: columns.recipe },
          { key: "difference", label: best.difference, ...NUMERIC },
          { key: "interval", label: pairWords.interval(level), ...NUMERIC },
          { key: "mayBe", label: best.mayBe },
        ]}
        rows={rows
          .sort((a, b) => b.difference! - a.difference!)
          .map((one) => ({
            recipe: nameOf(one.arm),
            difference: signed(one.difference),
            interval: range(one, signed),
            mayBe: one.mayBeBest === null ? words.notThere : one.mayBeBest ? best.yes : best.no,
          }))}
      />
      <MonteCarlo rows={rows} />
    </>
  );
}

/** Each recipe with the one the plan names. */
export function ReferenceTable({ band, where, analysis, context: { nameOf, level } }: Props) {
  const rows = analysis.againstReference.filter((one) => one.band === band);
  const [first] = rows;
  if (!first) return null;
  return (
    <>
      <FigureTable
        caption={words.reference.caption(where, nameOf(first.reference), level)}
        columns={[
          { key: "recipe", label: columns.recipe },
          { key: "difference", label: pairWords.difference, ...NUMERIC },
          { key: "interval", label: pairWords.interval(level), ...NUMERIC },
          { key: "se", label: columns.se, ...NUMERIC },
          { key: "df", label: columns.df, ...NUMERIC },
          { key: "p", label: pairWords.p, ...NUMERIC },
          { key: "verdict", label: pairWords.verdict },
        ]}
        rows={rows.map((one) => ({
          recipe: nameOf(one.arm),
          difference: signed(one.difference),
          interval: range(one, signed),
          se: figure(one.se),
          df: dfFigure(one.df),
          p: pFigure(one.p),
          verdict: one.verdict
            ? words.verdict(one.verdict, nameOf(one.arm), nameOf(one.reference), figure(analysis.margin))
            : why(one.reason),
        }))}
      />
      <MonteCarlo rows={rows} />
    </>
  );
}

/** Shares of clean growth, two recipes at a time, within sets. */
export function CleanTable({ band, where, analysis, context: { nameOf, level } }: Props) {
  const rows = analysis.clean.filter((one) => one.band === band && one.difference !== null);
  if (rows.length === 0) return null;
  const points = (share: number) => `${signed(share * 100, 0)}\u00a0%`;
  return (
    <>
      <FigureTable
        caption={words.clean.caption(where, level)}
        columns={[
          { key: "pair", label: pairWords.pair },
          { key: "difference", label: pairWords.difference, ...NUMERIC },
          { key: "interval", label: pairWords.interval(level), ...NUMERIC },
          { key: "oddsRatio", label: words.clean.oddsRatio, ...NUMERIC },
          { key: "p", label: pairWords.p, ...NUMERIC },
          { key: "boxes", label: columns.boxes, ...NUMERIC },
          { key: "growers", label: columns.growers, ...NUMERIC },
        ]}
        rows={rows.map((one) => ({
          pair: words.growers.pair(nameOf(one.first), nameOf(one.second)),
          difference: points(one.difference!),
          interval: range(one, points),
          oddsRatio: figure(one.oddsRatio),
          p: pFigure(one.p),
          boxes: count(one.boxes),
          growers: count(one.growers),
        }))}
      />
      <p className="-mt-4 mb-5 text-[0.9375rem] text-quiet">{words.warning.NOT_TRANSITIVE}</p>
    </>
  );
}

function MonteCarlo({ rows }: { rows: readonly { readonly monteCarloError: number | null }[] }) {
  const largest = Math.max(0, ...rows.map(({ monteCarloError }) => monteCarloError ?? 0));
  if (largest === 0) return null;
  return <p className="-mt-4 mb-5 text-[0.9375rem] text-quiet">{words.monteCarlo(largest.toPrecision(1))}</p>;
}
