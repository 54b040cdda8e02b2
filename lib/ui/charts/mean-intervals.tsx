import { decimal } from "@/lib/ui/format";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import { ChartFigure } from "./chart-figure";

export interface MeanDot {
  readonly name: string;
  /** Growth 0–4; null with the reason in words. */
  readonly mean: number | null;
  /** The interval's ends, or null where there is none. May reach past the scale; drawn up to its ends. */
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: string | null;
  /** Shown to grow less than the best: drawn hollow. */
  readonly behind?: boolean;
}

interface Props {
  readonly dots: readonly MeanDot[];
  /** Of the intervals, in words. */
  readonly level: string;
}

const WIDTH = 360;
const EDGE = 10;
const ROW = 46;
const SCALE = [0, 1, 2, 3, 4] as const;

/** Mean growth per recipe as a dot on the line of its interval. */
export function MeanIntervals({ dots, level }: Props) {
  const bottom = dots.length * ROW + 4;
  const title = words.meanTitle(level);
  return (
    <ChartFigure
      title={title}
      says={`${dots.map((dot) => sayDot(dot, level)).join(". ")}.`}
      width={WIDTH}
      height={bottom + 20}
      fontSize={14}
      below={
        <p className="text-[0.9375rem] text-quiet">
          {words.scale}. {dots.some(({ behind }) => behind) ? words.hollow : null}
        </p>
      }
    >
      {SCALE.map((growth) => (
        <g key={growth}>
          <path d={`M${along(growth)} 20V${bottom}`} stroke="var(--line)" />
          <text x={along(growth)} y={bottom + 15} textAnchor="middle" fill="var(--quiet)" fontSize="13">
            {growth}
          </text>
        </g>
      ))}
      {dots.map((dot, row) => (
        <Dot key={dot.name} dot={dot} top={row * ROW} />
      ))}
    </ChartFigure>
  );
}

function Dot({ dot, top }: { dot: MeanDot; top: number }) {
  const { name, mean, lower, upper, reason, behind } = dot;
  const y = top + 31;
  return (
    <g>
      <text x="0" y={top + 14} stroke="var(--ground)" strokeWidth="5" paintOrder="stroke">
        {name}
      </text>
      {lower !== null && upper !== null ? (
        <path d={`M${along(lower)} ${y}H${along(upper)}`} stroke="currentColor" strokeWidth="3" />
      ) : null}
      {mean !== null ? (
        <circle
          cx={along(mean)}
          cy={y}
          r={behind ? 6 : 7}
          fill={behind ? "var(--ground)" : "var(--act)"}
          stroke="var(--act)"
          strokeWidth={behind ? 2.5 : 0}
        />
      ) : (
        <text
          x="0"
          y={y + 4}
          fill="var(--quiet)"
          fontSize="13"
          stroke="var(--ground)"
          strokeWidth="5"
          paintOrder="stroke"
        >
          {reason}
        </text>
      )}
    </g>
  );
}

function along(growth: number): number {
  const onScale = Math.min(4, Math.max(0, growth));
  return EDGE + (onScale / 4) * (WIDTH - 2 * EDGE);
}

function sayDot({ name, mean, lower, upper, reason, behind }: MeanDot, level: string): string {
  if (mean === null) return `${name}: ${reason}`;
  const said =
    lower === null || upper === null
      ? words.meanSaysOnly(name, decimal(mean, 2))
      : words.meanSays(name, decimal(mean, 2), words.range(decimal(lower, 2), decimal(upper, 2)), level);
  return behind ? `${said}, ${words.hollowSays}` : said;
}
