import { decimal, percent } from "@/lib/ui/format";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { PoolArmSummary } from "@/shared/schemas/pool";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { TAKE_CLASSES } from "@/shared/vocabulary/growth";
import type { ResultsContext } from "./context";
import { FigureTable } from "./figure-table";
import { count, dfFigure, figure, type Reason, range, why } from "./figures";

interface Props {
  where: string;
  summaries: readonly PoolArmSummary[];
  context: Pick<ResultsContext, "nameOf" | "plainLevel">;
}

const { columns } = words;

/** Every figure of the pictures, with what it rests on. */
export function ArmTables({ where, summaries, context: { nameOf, plainLevel } }: Props) {
  return (
    <>
      <FigureTable
        caption={words.countsCaption(where)}
        columns={[
          { key: "recipe", label: columns.recipe },
          { key: "mean", label: columns.mean, numeric: true },
          { key: "interval", label: words.pairs.interval(plainLevel), numeric: true },
          ...BASE_COLUMNS,
        ]}
        rows={summaries.map(({ arm, mean, counts }) => ({
          recipe: nameOf(arm),
          mean: mean.estimate === null ? missing(mean.reason) : decimal(mean.estimate, 2),
          interval: interval(mean, (end) => decimal(end, 2)),
          ...base(mean, counts),
        }))}
      />
      <FigureTable
        caption={words.classesCaption(where)}
        columns={[
          { key: "recipe", label: columns.recipe },
          ...TAKE_CLASSES.map((growth) => ({
            key: `growth${growth}`,
            label: vocabularyMessages.growth[growth].name,
            numeric: true,
          })),
        ]}
        rows={summaries.map(({ arm, distribution }) => ({
          recipe: nameOf(arm),
          ...Object.fromEntries(
            TAKE_CLASSES.map((growth) => [
              `growth${growth}`,
              distribution.classes ? distribution.classes[growth] : missing(distribution.reason, growth > 0),
            ]),
          ),
        }))}
      />
      <FigureTable
        caption={words.cleanCaption(where)}
        columns={[
          { key: "recipe", label: columns.recipe },
          { key: "share", label: columns.clean, numeric: true },
          { key: "interval", label: words.pairs.interval(plainLevel), numeric: true },
          ...BASE_COLUMNS,
        ]}
        rows={summaries.map(({ arm, cleanTake, counts }) => ({
          recipe: nameOf(arm),
          share: cleanTake.share === null ? missing(cleanTake.reason) : percent(cleanTake.share),
          interval: interval(cleanTake, percent),
          ...base(cleanTake, counts),
        }))}
      />
      <p className="-mt-4 mb-5 text-[0.9375rem] text-quiet">{words.cleanNote}</p>
    </>
  );
}

/** Means by the fitted model. */
export function ModelTable({
  where,
  band,
  analysis,
  context: { nameOf, level },
}: {
  where: string;
  band: string;
  analysis: PoolAnalysis;
  context: ResultsContext;
}) {
  const cells = analysis.cells
    .filter((cell) => cell.band === band)
    .sort((a, b) => (b.estimate ?? -1) - (a.estimate ?? -1));
  if (cells.length === 0) return null;
  return (
    <FigureTable
      caption={words.modelCaption(where, level)}
      columns={[
        { key: "recipe", label: columns.recipe },
        { key: "mean", label: columns.modelMean, numeric: true },
        { key: "interval", label: words.pairs.interval(level), numeric: true },
        { key: "se", label: columns.se, numeric: true },
        { key: "df", label: columns.df, numeric: true },
        ...BASE_COLUMNS.slice(0, 3),
      ]}
      rows={cells.map((cell) => ({
        recipe: nameOf(cell.arm),
        mean: cell.estimate === null ? why(cell.reason) : figure(cell.estimate),
        interval: range(cell),
        se: figure(cell.se),
        df: dfFigure(cell.df),
        boxes: count(cell.boxes),
        sets: count(cell.outings),
        growers: count(cell.growers),
      }))}
    />
  );
}

const BASE_COLUMNS = [
  { key: "boxes", label: columns.boxes, numeric: true },
  { key: "sets", label: columns.sets, numeric: true },
  { key: "growers", label: columns.growers, numeric: true },
  { key: "lost", label: columns.lost, numeric: true },
];

interface Base {
  readonly boxes: number | null;
  readonly outings: number | null;
  readonly growers: number | null;
}

function base(figure: Base, { lost }: { readonly lost: number | null }) {
  return {
    boxes: count(figure.boxes),
    sets: count(figure.outings),
    growers: count(figure.growers),
    lost: count(lost),
  };
}

interface Interval {
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: Reason | null;
}

function interval({ lower, upper, reason }: Interval, write: (end: number) => string): string {
  if (lower === null || upper === null) return reason === "WITHHELD" ? words.notThere : missing(reason);
  return words.range(write(lower), write(upper));
}

/** The reason in words, once a row. */
function missing(reason: Reason | null, saidBefore = false): string {
  return reason && !saidBefore ? words.reason[reason] : words.notThere;
}
