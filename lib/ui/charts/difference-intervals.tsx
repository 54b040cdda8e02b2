import { decimal } from "@/lib/ui/format";
import { resultMessages } from "@/lib/ui/messages/en/results";
import { ChartFigure } from "./chart-figure";
import { type DifferenceScale, differenceScale } from "./difference-scale";

const words = resultMessages.pairs;

export interface DifferenceRow {
  readonly name: string;
  readonly difference: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

interface Props {
  readonly title: string;
  readonly rows: readonly DifferenceRow[];
  /** Shaded either side of 0. */
  readonly margin: number | null;
  readonly note?: string;
}

const WIDTH = 360;
const EDGE = 12;
const ROW = 46;

/** Differences as dots on the lines of their intervals, about a rule at 0. */
export function DifferenceIntervals({ title, rows, margin, note }: Props) {
  const bottom = rows.length * ROW + 4;
  const scale = differenceScale([
    ...rows.flatMap(({ difference, lower, upper }) => [difference, lower ?? 0, upper ?? 0]),
    ...(margin === null ? [] : [-margin, margin]),
  ]);
  const x = (value: number) => EDGE + scale.at(value) * (WIDTH - 2 * EDGE);
  return (
    <ChartFigure
      title={title}
      says={`${rows.map(sayRow).join(". ")}.`}
      width={WIDTH}
      height={bottom + 20}
      fontSize={14}
      below={note ? <p className="text-[0.9375rem] text-quiet">{note}</p> : null}
    >
      {margin === null ? null : (
        <rect
          x={x(-margin)}
          y="0"
          width={x(margin) - x(-margin)}
          height={bottom}
          fill="var(--panel)"
          stroke="var(--line)"
        />
      )}
      <DifferenceAxis scale={scale} x={x} bottom={bottom} />
      {rows.map((row, place) => (
        <Row key={row.name} row={row} top={place * ROW} x={x} />
      ))}
    </ChartFigure>
  );
}

function Row({ row, top, x }: { row: DifferenceRow; top: number; x: (value: number) => number }) {
  const { name, difference, lower, upper } = row;
  const y = top + 31;
  return (
    <g>
      <text x="0" y={top + 14} stroke="var(--ground)" strokeWidth="4" paintOrder="stroke">
        {name}
      </text>
      {lower !== null && upper !== null ? (
        <path d={`M${x(lower)} ${y}H${x(upper)}`} stroke="currentColor" strokeWidth="3" />
      ) : null}
      <circle cx={x(difference)} cy={y} r="7" fill="var(--act)" />
    </g>
  );
}

/** Ticks with their figures along the foot, and a heavier rule at 0. */
export function DifferenceAxis({
  scale,
  x,
  top = 20,
  bottom,
}: {
  scale: DifferenceScale;
  x: (value: number) => number;
  top?: number;
  bottom: number;
}) {
  const decimals = scale.ticks.every((tick) => Math.abs(tick - Math.round(tick)) < 1e-9) ? 0 : 1;
  const fine = scale.ticks.some((tick) => Math.abs(tick * 10 - Math.round(tick * 10)) > 1e-9);
  return (
    <>
      {scale.ticks.map((tick) => (
        <g key={tick}>
          <path
            d={`M${x(tick)} ${top}V${bottom}`}
            stroke={Math.abs(tick) < 1e-9 ? "var(--ink)" : "var(--line)"}
            strokeWidth={Math.abs(tick) < 1e-9 ? 1.5 : 1}
          />
          <text x={x(tick)} y={bottom + 15} textAnchor="middle" fill="var(--quiet)" fontSize="13">
            {decimal(tick, fine ? 2 : decimals)}
          </text>
        </g>
      ))}
    </>
  );
}

function sayRow({ name, difference, lower, upper }: DifferenceRow): string {
  const range =
    lower === null || upper === null
      ? resultMessages.notThere
      : resultMessages.range(decimal(lower, 2), decimal(upper, 2));
  return words.chartSays(name, decimal(difference, 2), range);
}
