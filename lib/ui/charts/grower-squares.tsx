import { decimal } from "@/lib/ui/format";
import { resultMessages } from "@/lib/ui/messages/en/results";
import { ChartFigure } from "./chart-figure";
import { DifferenceAxis } from "./difference-intervals";
import { differenceScale } from "./difference-scale";

const words = resultMessages.growers;

export interface GrowerSquare {
  readonly grower: string;
  readonly difference: number;
  /** 0–1, of the pooled difference. */
  readonly weight: number;
}

interface Props {
  readonly title: string;
  readonly squares: readonly GrowerSquare[];
  readonly pooled: { readonly difference: number; readonly lower: number; readonly upper: number };
}

const WIDTH = 360;
const LABEL = 92;
const EDGE = 12;
const ROW = 24;
const LARGEST = 18;

/** Each grower's own difference as a square, its area the grower's weight, over a diamond for all together. */
export function GrowerSquares({ title, squares, pooled }: Props) {
  const bottom = (squares.length + 1) * ROW + 8;
  const scale = differenceScale([...squares.map(({ difference }) => difference), pooled.lower, pooled.upper]);
  const x = (value: number) => LABEL + scale.at(value) * (WIDTH - LABEL - EDGE);
  const heaviest = Math.max(...squares.map(({ weight }) => weight));
  const y = squares.length * ROW + ROW / 2 + 4;
  return (
    <ChartFigure
      title={title}
      says={`${squares.map(({ grower, difference }) => words.says(grower, decimal(difference, 2))).join(". ")}.`}
      width={WIDTH}
      height={bottom + 20}
      fontSize={13}
      below={<p className="text-[0.9375rem] text-quiet">{words.legend}</p>}
    >
      <DifferenceAxis scale={scale} x={x} top={0} bottom={bottom} />
      {squares.map(({ grower, difference, weight }, row) => {
        const side = LARGEST * Math.sqrt(weight / heaviest);
        const middle = row * ROW + ROW / 2;
        return (
          <g key={grower}>
            <text x="0" y={middle + 4}>
              {grower}
            </text>
            <rect
              x={x(difference) - side / 2}
              y={middle - side / 2}
              width={side}
              height={side}
              fill="var(--act)"
            />
          </g>
        );
      })}
      <text x="0" y={y + 4} fontWeight="700">
        {words.pooled}
      </text>
      <path
        d={`M${x(pooled.lower)} ${y}L${x(pooled.difference)} ${y - 9}L${x(pooled.upper)} ${y}L${x(pooled.difference)} ${y + 9}Z`}
        fill="var(--due)"
      />
    </ChartFigure>
  );
}
