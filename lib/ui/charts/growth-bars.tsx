import { Fragment } from "react";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { TAKE_CLASSES } from "@/shared/vocabulary/growth";
import { ChartFigure } from "./chart-figure";

export interface GrowthBar {
  readonly name: string;
  /** Boxes with growth 0, 1, 2, 3, 4; null with the reason in words. */
  readonly classes: readonly number[] | null;
  readonly reason: string | null;
}

const WIDTH = 360;
const ROW = 58;
const BAR_TOP = 21;
const BAR_HEIGHT = 27;
/** A segment narrower than this can't hold its count. */
const ROOM_FOR_COUNT = 15;

/** Growth per recipe as bars of one length, from bare grain (brown) to overgrown (white). */
export function GrowthBars({ bars }: { bars: readonly GrowthBar[] }) {
  return (
    <ChartFigure
      title={words.distributionTitle}
      says={`${bars.map(sayBar).join(". ")}.`}
      width={WIDTH}
      height={bars.length * ROW}
      fontSize={14}
      below={
        <ul className="mt-2 flex flex-wrap gap-x-4 gap-y-1 text-[0.9375rem]">
          {TAKE_CLASSES.map((growth) => (
            <li key={growth} className="flex items-center gap-1.5">
              <svg viewBox="0 0 14 14" className="size-3.5" aria-hidden="true" focusable="false">
                <rect
                  x="1"
                  y="1"
                  width="12"
                  height="12"
                  fill={`var(--growth-${growth})`}
                  stroke="var(--box-line)"
                />
              </svg>
              {vocabularyMessages.growth[growth].name} ({vocabularyMessages.growth[growth].range})
            </li>
          ))}
        </ul>
      }
    >
      {bars.map((bar, row) => (
        <g key={bar.name} transform={`translate(0 ${row * ROW})`}>
          <text x="0" y="14">
            {bar.name}
          </text>
          {bar.classes ? (
            <Segments classes={bar.classes} />
          ) : (
            <text x="0" y={BAR_TOP + 18} fill="var(--quiet)" fontSize="13">
              {bar.reason}
            </text>
          )}
        </g>
      ))}
    </ChartFigure>
  );
}

function Segments({ classes }: { classes: readonly number[] }) {
  const total = sum(classes);
  const segments = classes.map((count, growth) => ({
    growth,
    count,
    left: (sum(classes.slice(0, growth)) / total) * (WIDTH - 2) + 1,
    width: (count / total) * (WIDTH - 2),
  }));
  return (
    <>
      {segments
        .filter(({ count }) => count > 0)
        .map(({ growth, count, left, width }) => (
          <Fragment key={growth}>
            <rect
              x={left}
              y={BAR_TOP}
              width={width}
              height={BAR_HEIGHT}
              fill={`var(--growth-${growth})`}
              stroke="var(--growth-line)"
              strokeWidth="1.5"
            />
            {width > ROOM_FOR_COUNT ? (
              <text
                x={left + width / 2}
                y={BAR_TOP + 18}
                textAnchor="middle"
                fill={growth < 2 ? "#fff" : "#13252b"}
              >
                {count}
              </text>
            ) : null}
          </Fragment>
        ))}
      <rect
        x="1"
        y={BAR_TOP}
        width={WIDTH - 2}
        height={BAR_HEIGHT}
        fill="none"
        stroke="var(--box-line)"
        strokeWidth="1.5"
      />
    </>
  );
}

function sayBar({ name, classes, reason }: GrowthBar): string {
  if (!classes) return `${name}: ${reason}`;
  const parts = TAKE_CLASSES.map((growth) =>
    words.classCount(classes[growth] ?? 0, vocabularyMessages.growth[growth].name),
  );
  return words.distributionSays(name, parts.join(", "), sum(classes));
}

function sum(counts: readonly number[]): number {
  return counts.reduce((total, count) => total + count, 0);
}
