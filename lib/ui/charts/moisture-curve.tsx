import { decimal } from "@/lib/ui/format";
import { resultMessages } from "@/lib/ui/messages/en/results";
import { ChartFigure } from "./chart-figure";

const words = resultMessages.moisture;

export interface MoisturePoint {
  readonly moisturePercent: number;
  /** Growth 0–4 with its interval, drawn up to the scale's ends. */
  readonly estimate: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

const WIDTH = 360;
const HEIGHT = 190;
const LEFT = 22;
const RIGHT = 14;
const TOP = 8;
const BOTTOM = 160;
const SCALE = [0, 1, 2, 3, 4] as const;
/** Moisture shown either side of the outermost points, in points of per cent. */
const ROOM = 3;

/** Mean growth against the moisture of the cooked grain, for one grain in one climate group. */
export function MoistureCurve({ title, points }: { title: string; points: readonly MoisturePoint[] }) {
  const sorted = [...points].sort((a, b) => a.moisturePercent - b.moisturePercent);
  const low = Math.floor(sorted[0]!.moisturePercent - ROOM);
  const high = Math.ceil(sorted.at(-1)!.moisturePercent + ROOM);
  const x = (percent: number) => LEFT + ((percent - low) / (high - low)) * (WIDTH - LEFT - RIGHT);
  const line = sorted.map((one) => `${x(one.moisturePercent)} ${up(one.estimate)}`).join("L");
  return (
    <ChartFigure
      title={title}
      says={`${sorted.map((one) => words.point(`${decimal(one.moisturePercent, 0)}\u00a0%`, decimal(one.estimate, 2))).join(". ")}.`}
      width={WIDTH}
      height={HEIGHT}
      fontSize={13}
    >
      {SCALE.map((growth) => (
        <g key={growth}>
          <path d={`M${LEFT} ${up(growth)}H${WIDTH - RIGHT}`} stroke="var(--line)" />
          <text x="6" y={up(growth) + 4} textAnchor="middle" fill="var(--quiet)">
            {growth}
          </text>
        </g>
      ))}
      <path d={`M${line}`} fill="none" stroke="var(--edge)" strokeWidth="1.5" />
      {sorted.map((one) => (
        <g key={one.moisturePercent}>
          {one.lower !== null && one.upper !== null ? (
            <path
              d={`M${x(one.moisturePercent)} ${up(one.lower)}V${up(one.upper)}`}
              stroke="currentColor"
              strokeWidth="3"
            />
          ) : null}
          <circle cx={x(one.moisturePercent)} cy={up(one.estimate)} r="6" fill="var(--act)" />
          <text x={x(one.moisturePercent)} y={BOTTOM + 15} textAnchor="middle" fill="var(--quiet)">
            {decimal(one.moisturePercent, 0)}
          </text>
        </g>
      ))}
      <text x={WIDTH - RIGHT} y={BOTTOM + 28} textAnchor="end" fill="var(--quiet)" fontSize="12">
        {words.axis}
      </text>
    </ChartFigure>
  );
}

function up(growth: number): number {
  const onScale = Math.min(4, Math.max(0, growth));
  return BOTTOM - (onScale / 4) * (BOTTOM - TOP);
}
