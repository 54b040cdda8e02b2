import { ChanceDots } from "@/lib/ui/charts/chance-dots";
import { percent } from "@/lib/ui/format";
import { resultMessages } from "@/lib/ui/messages/en/results";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import type { ResultsContext } from "./context";
import { FigureTable } from "./figure-table";
import { why } from "./figures";
import { twentyDots } from "./twenty";

const words = resultMessages.chance;

interface Props {
  band: string;
  analysis: PoolAnalysis;
  context: ResultsContext;
}

/** The chance of each recipe to be the best of a group, as dots and as a table. */
export function BestHere({ band, analysis, context }: Props) {
  const { nameOf, groupName, result } = context;
  const cells = analysis.cells
    .filter((cell) => cell.band === band && cell.chanceBest !== null)
    .sort((a, b) => b.chanceBest! - a.chanceBest!);
  if (cells.length === 0) {
    return <p className="mb-5">{words.none(result.interim ? why("INTERIM") : words.tooFew)}</p>;
  }
  const dots = twentyDots(cells.map(({ chanceBest }) => chanceBest!));
  const rows = cells.map(({ arm }, place) => ({ name: nameOf(arm), dots: dots[place]! }));
  return (
    <>
      <ChanceDots
        rows={rows.filter((row) => row.dots > 0)}
        none={rows.filter((row) => row.dots === 0).map(({ name }) => name)}
      />
      <FigureTable
        caption={words.caption(groupName(band))}
        columns={[
          { key: "recipe", label: resultMessages.columns.recipe },
          { key: "mean", label: words.mean, numeric: true },
          { key: "nextSet", label: words.nextSet, numeric: true },
        ]}
        rows={cells.map(({ arm, chanceBest, chanceBestNextSet }) => ({
          recipe: nameOf(arm),
          mean: share(chanceBest!),
          nextSet: chanceBestNextSet === null ? resultMessages.notThere : share(chanceBestNextSet),
        }))}
      />
      <p className="-mt-4 mb-5 text-[0.9375rem] text-quiet">{words.nextSetNote}</p>
    </>
  );
}

/** In per cent; no chance is ever all or nothing. */
function share(chance: number): string {
  if (chance < 0.005) return words.share.under;
  return chance > 0.995 ? words.share.over : percent(chance);
}
