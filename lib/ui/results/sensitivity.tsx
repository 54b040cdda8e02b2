import { resultMessages } from "@/lib/ui/messages/en/results";
import type { PoolAnalysis, PoolContrast } from "@/shared/schemas/pool-analysis";
import { answerOf } from "./answer";
import type { ResultsContext } from "./context";
import { FigureTable, type TwoLines } from "./figure-table";
import { type Interval, range, signed, why } from "./figures";
import { comparisonOf, turned } from "./pairs";

const words = resultMessages.sensitivity;

type Kind = PoolAnalysis["sensitivity"][number];

/** The leader's differences in each climate group once more, with one thing counted otherwise. */
export function Sensitivity({ analysis, context }: { analysis: PoolAnalysis; context: ResultsContext }) {
  const { groups, groupName, minimum, nameOf } = context;
  const done = analysis.sensitivity.filter(({ contrasts }) => contrasts.length > 0);
  const missing = analysis.sensitivity.filter(({ contrasts }) => contrasts.length === 0);
  return (
    <>
      {done.length > 0 ? (
        <ul className="mb-4 list-disc space-y-1 pl-5 text-[0.9375rem] text-quiet">
          {done.map(({ kind, boxes, growers }) => (
            <li key={kind}>
              {boxes === null || growers === null
                ? words.kind[kind]
                : words.base(words.kind[kind], boxes, growers)}
            </li>
          ))}
          {done.some(({ kind }) => kind === "SAME_DAY_FETCH") ? <li>{words.note.SAME_DAY_FETCH}</li> : null}
          {done.some(({ kind }) => kind.startsWith("LOST")) ? <li>{words.note.LOST}</li> : null}
        </ul>
      ) : null}
      {done.length > 0
        ? groups.map(({ code }) => {
            const leader = answerOf(code, analysis, minimum).leader?.arm;
            const pairs = analysis.contrasts
              .filter((one) => one.band === code && (one.first === leader || one.second === leader))
              .map((one) => (one.first === leader ? one : turned(one)));
            return pairs.length > 0 ? (
              <KindTable key={code} where={groupName(code)} kinds={done} pairs={pairs} nameOf={nameOf} />
            ) : null;
          })
        : null}
      {missing.map(({ kind, reason }) => (
        <p key={kind} className="mb-1 text-quiet">
          {words.none(words.kind[kind], why(reason))}
        </p>
      ))}
    </>
  );
}

function KindTable({
  where,
  kinds,
  pairs,
  nameOf,
}: {
  where: string;
  kinds: readonly Kind[];
  pairs: readonly PoolContrast[];
  nameOf: (arm: string) => string;
}) {
  return (
    <FigureTable
      caption={words.caption(where)}
      columns={[
        { key: "pair", label: resultMessages.pairs.pair },
        { key: "main", label: words.main, numeric: true },
        ...kinds.map(({ kind }) => ({ key: kind, label: words.kind[kind], numeric: true })),
      ]}
      rows={pairs.map((pair) => ({
        pair: resultMessages.growers.pair(nameOf(pair.first), nameOf(pair.second)),
        main: cell(pair),
        ...Object.fromEntries(
          kinds.map(({ kind, contrasts }) => {
            const found = comparisonOf(contrasts, pair.band, pair.first, pair.second);
            return [kind, found ? cell(found) : resultMessages.notThere];
          }),
        ),
      }))}
    />
  );
}

function cell(one: Interval & { readonly difference: number | null }): TwoLines {
  return { figure: signed(one.difference), under: one.lower === null ? null : range(one, signed) };
}
