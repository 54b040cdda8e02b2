import { resultMessages } from "@/lib/ui/messages/en/results";
import type { UsableGrain as Usable } from "@/shared/schemas/pool-analysis";
import { meetsMinimum } from "./answer";
import type { ResultsContext } from "./context";
import { FigureTable } from "./figure-table";
import { count, dfFigure, figure, pFigure, range, signed, why } from "./figures";
import { turned } from "./pairs";

const words = resultMessages.usable;
const NUMERIC = { numeric: true } as const;

interface Props {
  readonly usable: Usable;
  readonly context: ResultsContext;
}

/** Grams of usable grain per box set out, climate group by climate group. */
export function UsableGrain({ usable, context }: Props) {
  const { groups, groupName } = context;
  if (usable.cells.length === 0) return <p>{words.none(why(usable.reason))}</p>;
  return (
    <>
      {groups.map(({ code }) => (
        <section key={code} className="mb-6">
          <h4 className="mb-2 font-bold">{groupName(code)}</h4>
          <Group band={code} usable={usable} context={context} />
        </section>
      ))}
      <p className="mb-4 max-w-[44em] text-[0.9375rem] text-quiet">{words.note}</p>
    </>
  );
}

function Group({ band, usable, context }: Props & { readonly band: string }) {
  const { groupName, nameOf, level, minimum, result } = context;
  const where = groupName(band);
  const cells = usable.cells
    .filter((cell) => cell.band === band)
    .sort((a, b) => (b.estimate ?? -1) - (a.estimate ?? -1));
  if (cells.every(({ estimate }) => estimate === null))
    return <p className="mb-2">{words.none(why(cells[0] ? cells[0].reason : "WITHHELD"))}</p>;
  const most = cells.find((cell) => cell.estimate !== null && meetsMinimum(cell, minimum));
  const pairs = usable.contrasts
    .filter((one) => one.band === band && (one.first === most?.arm || one.second === most?.arm))
    .map((one) => (one.first === most?.arm ? one : turned(one)));
  const behind = pairs.filter(({ lower }) => lower !== null && lower > 0).length;
  return (
    <>
      {most && !result.interim ? (
        <p className="mb-2">{words.most(nameOf(most.arm), grams(most.estimate), behind, pairs.length)}</p>
      ) : null}
      <FigureTable
        caption={words.caption(where, level)}
        columns={[
          { key: "recipe", label: resultMessages.columns.recipe },
          { key: "mean", label: words.mean, ...NUMERIC },
          { key: "interval", label: resultMessages.pairs.interval(level), ...NUMERIC },
          { key: "boxes", label: resultMessages.columns.boxes, ...NUMERIC },
          { key: "sets", label: resultMessages.columns.sets, ...NUMERIC },
          { key: "growers", label: resultMessages.columns.growers, ...NUMERIC },
        ]}
        rows={cells.map((cell) => ({
          recipe: nameOf(cell.arm),
          mean: cell.estimate === null ? why(cell.reason) : grams(cell.estimate),
          interval: range(cell, grams),
          boxes: count(cell.boxes),
          sets: count(cell.outings),
          growers: count(cell.growers),
        }))}
      />
      {pairs.length > 0 ? <PairTable where={where} pairs={pairs} context={context} /> : null}
    </>
  );
}

function PairTable({
  where,
  pairs,
  context: { nameOf, level },
}: {
  readonly where: string;
  readonly pairs: Usable["contrasts"];
  readonly context: ResultsContext;
}) {
  return (
    <FigureTable
      caption={words.pairCaption(where, level)}
      columns={[
        { key: "pair", label: resultMessages.pairs.pair },
        { key: "difference", label: words.difference, ...NUMERIC },
        { key: "interval", label: resultMessages.pairs.interval(level), ...NUMERIC },
        { key: "df", label: resultMessages.columns.df, ...NUMERIC },
        { key: "p", label: resultMessages.pairs.p, ...NUMERIC },
      ]}
      rows={pairs.map((one) => ({
        pair: resultMessages.growers.pair(nameOf(one.first), nameOf(one.second)),
        difference: one.difference === null ? why(one.reason) : signedGrams(one.difference),
        interval: range(one, signedGrams),
        df: dfFigure(one.df),
        p: pFigure(one.p),
      }))}
    />
  );
}

function grams(value: number | null): string {
  return figure(value, 0);
}

function signedGrams(value: number): string {
  return signed(value, 0);
}
