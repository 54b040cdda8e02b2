import { PowerCurve } from "@/lib/ui/charts/power-curve-frame";
import type { CurveLine } from "@/lib/ui/charts/power-curve-lines";
import { DataTable } from "@/lib/ui/components/data-table";
import { percent, whole } from "@/lib/ui/format";
import { designMessages } from "@/lib/ui/messages/en/design";
import type { CurvePoint, PlannerDesign } from "@/shared/schemas/planner-result";
import type { Place } from "./places";

const words = designMessages.curve;
const LINES = ["difference", "anyDifference", "equivalence", "cleanTake"] as const;

/** Power against growers for one design in one place: the curve, and the same in a table that needs no script. */
export function Curve({ place, design }: { place: Place; design: PlannerDesign }) {
  const figures = place.figuresOf(design);
  if (!figures || figures.curve.length === 0) return null;
  const { curve, growers } = figures;
  const shown = LINES.filter((line) => curve.some((point) => point[line] !== null));
  const title = words.title(designMessages.designName(design.kind, design.boxesPerSet), place.name);
  return (
    <div className="items-start gap-x-10 lg:grid lg:grid-cols-[3fr_2fr]">
      <PowerCurve
        title={title}
        lines={shown.map((line): CurveLine => ({ line, points: pointsOf(curve, line) }))}
        planned={growers}
      />
      <DataTable
        caption={words.table}
        columns={[
          { key: "growers", label: words.growers },
          ...shown.map((line) => ({ key: line, label: words.lines[line], numeric: true })),
        ]}
        rows={curve.map((point) => ({
          growers: point.growers === growers ? words.plannedAt(whole(growers)) : whole(point.growers),
          ...Object.fromEntries(
            shown.map((line) => [
              line,
              point[line] === null ? designMessages.notThere : percent(point[line]),
            ]),
          ),
        }))}
      />
    </div>
  );
}

function pointsOf(curve: readonly CurvePoint[], line: (typeof LINES)[number]) {
  return curve.flatMap(({ growers, [line]: chance }) => (chance === null ? [] : [{ growers, chance }]));
}
