import { MoistureCurve } from "@/lib/ui/charts/moisture-curve";
import { decimal } from "@/lib/ui/format";
import { resultMessages } from "@/lib/ui/messages/en/results";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import type { ResultsContext } from "./context";
import { grainName } from "./factor-effects";
import { FigureTable } from "./figure-table";
import { count, dfFigure, figure, pFigure, range, signed, why } from "./figures";

const words = resultMessages.moisture;
const NUMERIC = { numeric: true } as const;

type Curve = PoolAnalysis["moisture"][number];

/** Growth by the moisture recipes were meant to have, grain by grain in each climate group. */
export function Moisture({ curves, context }: { curves: readonly Curve[]; context: ResultsContext }) {
  const { groups, groupName, level } = context;
  return groups.map(({ code }) => {
    const own = curves.filter(({ band }) => band === code);
    if (own.length === 0) return null;
    return (
      <section key={code} className="mb-6">
        <h4 className="mb-2 font-bold">{groupName(code)}</h4>
        <div className="grid gap-x-8 sm:grid-cols-2 lg:grid-cols-3">
          {own.map((curve) => (
            <Drawing key={curve.grain} curve={curve} />
          ))}
        </div>
        <PointTable curves={own} where={groupName(code)} level={level} />
        <SlopeTable curves={own} level={level} />
      </section>
    );
  });
}

function Drawing({ curve }: { curve: Curve }) {
  const points = curve.points.flatMap((point) =>
    point.estimate === null ? [] : [{ ...point, estimate: point.estimate }],
  );
  return points.length > 0 ? <MoistureCurve title={grainName(curve.grain)} points={points} /> : null;
}

function PointTable({ curves, where, level }: { curves: readonly Curve[]; where: string; level: string }) {
  return (
    <FigureTable
      caption={words.caption(where)}
      columns={[
        { key: "grain", label: words.grain },
        { key: "moisture", label: words.moisture, ...NUMERIC },
        { key: "mean", label: resultMessages.columns.modelMean, ...NUMERIC },
        { key: "interval", label: resultMessages.pairs.interval(level), ...NUMERIC },
        { key: "boxes", label: resultMessages.columns.boxes, ...NUMERIC },
      ]}
      rows={curves.flatMap(({ grain, points }) =>
        points.map((point) => ({
          grain: grainName(grain),
          moisture: `${decimal(point.moisturePercent, 1)}\u00a0%`,
          mean: figure(point.estimate),
          interval: range(point),
          boxes: count(point.boxes),
        })),
      )}
    />
  );
}

function SlopeTable({ curves, level }: { curves: readonly Curve[]; level: string }) {
  return (
    <FigureTable
      caption={words.slopeCaption}
      columns={[
        { key: "grain", label: words.grain },
        { key: "slope", label: words.slope, ...NUMERIC },
        { key: "interval", label: resultMessages.pairs.interval(level), ...NUMERIC },
        { key: "df", label: resultMessages.columns.df, ...NUMERIC },
        { key: "p", label: resultMessages.pairs.p, ...NUMERIC },
      ]}
      rows={curves.map(({ grain, slope, reason }) => ({
        grain: grainName(grain),
        slope: slope.difference === null ? why(reason) : signed(slope.difference),
        interval: range(slope, signed),
        df: dfFigure(slope.df),
        p: pFigure(slope.p),
      }))}
    />
  );
}
