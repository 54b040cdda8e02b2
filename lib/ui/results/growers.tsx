import { GrowerSquares } from "@/lib/ui/charts/grower-squares";
import { percent } from "@/lib/ui/format";
import { resultMessages } from "@/lib/ui/messages/en/results";
import type { PoolAnalysis, PoolContrast } from "@/shared/schemas/pool-analysis";
import { answerOf } from "./answer";
import type { ResultsContext } from "./context";
import { FigureTable } from "./figure-table";
import { signed } from "./figures";
import { Fold } from "./fold";
import { comparisonOf, turned } from "./pairs";

const words = resultMessages.growers;

type GrowerView = PoolAnalysis["growers"][number];

/** For the lead: each grower's own difference between the leader and every other recipe of a climate group. */
export function Growers({ analysis, context }: { analysis: PoolAnalysis; context: ResultsContext }) {
  if (analysis.growers.length === 0) return <p className="mb-4">{words.none}</p>;
  return context.groups.map(({ code }) => {
    const { leader, rivals, behind } = answerOf(code, analysis, context.minimum);
    if (!leader) return null;
    const contrasts = [...rivals, ...behind].flatMap((arm) => {
      const found = comparisonOf(analysis.contrasts, code, leader.arm, arm);
      return found && viewsOf(found, analysis.growers).length > 0 ? [found] : [];
    });
    const [first, ...others] = contrasts;
    if (!first) return null;
    return (
      <section key={code} className="mb-6">
        <h4 className="mb-2 font-bold">{context.groupName(code)}</h4>
        <PairByGrower contrast={first} analysis={analysis} context={context} />
        {others.length > 0 ? (
          <Fold kind="detail" title={words.others(others.length)}>
            {others.map((contrast) => (
              <PairByGrower key={contrast.second} contrast={contrast} analysis={analysis} context={context} />
            ))}
          </Fold>
        ) : null}
      </section>
    );
  });
}

interface PairProps {
  contrast: PoolContrast;
  analysis: PoolAnalysis;
  context: ResultsContext;
}

function PairByGrower({ contrast, analysis, context: { nameOf } }: PairProps) {
  const own = viewsOf(contrast, analysis.growers);
  const pair = words.pair(nameOf(contrast.first), nameOf(contrast.second));
  const drawn = own.flatMap(({ grower, difference, weight }) =>
    difference !== null && weight !== null && weight > 0 ? [{ grower, difference, weight }] : [],
  );
  const mover = own
    .filter(({ shiftWithout }) => shiftWithout !== null)
    .sort((a, b) => Math.abs(b.shiftWithout!) - Math.abs(a.shiftWithout!))[0];
  const { difference, lower, upper } = contrast;
  return (
    <div className="mb-6 grid gap-x-11 *:min-w-0 lg:grid-cols-2">
      <div>
        {drawn.length > 0 && difference !== null && lower !== null && upper !== null ? (
          <GrowerSquares title={pair} squares={drawn} pooled={{ difference, lower, upper }} />
        ) : null}
        {mover ? <p className="mb-3">{words.mostMoving(mover.grower, signed(mover.shiftWithout))}</p> : null}
      </div>
      <FigureTable
        caption={words.caption(pair)}
        columns={[
          { key: "grower", label: words.grower, mono: true },
          { key: "own", label: words.own, numeric: true },
          { key: "weight", label: words.weight, numeric: true },
          { key: "shift", label: words.shift, numeric: true },
        ]}
        rows={own.map((view) => ({
          grower: view.grower,
          own: signed(view.difference),
          weight: view.weight === null ? resultMessages.notThere : percent(view.weight),
          shift: signed(view.shiftWithout, 3),
        }))}
      />
    </div>
  );
}

/** Growers who have a part in a pair, turned to the pair's own way round, smallest difference first. */
function viewsOf({ band, first, second }: PoolContrast, growers: readonly GrowerView[]): GrowerView[] {
  return growers
    .filter((view) => view.band === band)
    .flatMap((view) => {
      if (view.first === first && view.second === second) return [view];
      if (view.first !== second || view.second !== first) return [];
      return [turned(view)];
    })
    .sort((a, b) => (a.difference ?? 0) - (b.difference ?? 0));
}
