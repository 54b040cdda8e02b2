/** An estimate with its interval, null where there is none. */
export interface ChartedMean {
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** What the chart's width stands for. */
export interface Axis {
  readonly from: number;
  readonly to: number;
}

const WIDTH = 33;

/** 0 to 4 where all means lie there, else from the least to the greatest bound. */
export function axisOver(means: readonly ChartedMean[]): Axis {
  const estimates = means.flatMap(({ estimate }) => (estimate === null ? [] : [estimate]));
  if (estimates.every((estimate) => estimate >= 0 && estimate <= 4)) return { from: 0, to: 4 };
  const values = means.flatMap(({ estimate, lower, upper }) => [estimate, lower, upper]);
  const known = values.filter((value) => value !== null);
  return { from: Math.min(...known), to: Math.max(...known) };
}

/** The axis' ends over the chart's width. */
export function axisLabels({ from, to }: Axis): string {
  const [left, right] = [label(from), label(to)];
  return left + right.padStart(WIDTH - left.length);
}

/** One line: the estimate as a dot on its interval; ends beyond the axis are cut. Empty without an interval. */
export function drawInterval({ estimate, lower, upper }: ChartedMean, axis: Axis): string {
  if (estimate === null || lower === null || upper === null) return "";
  const cells = new Array<string>(WIDTH).fill(" ");
  const [first, dot, last] = [place(lower, axis), place(estimate, axis), place(upper, axis)];
  for (let i = first; i <= last; i++) cells[i] = "─";
  if (lower >= axis.from) cells[first] = "├";
  if (upper <= axis.to) cells[last] = "┤";
  cells[dot] = "●";
  return cells.join("").trimEnd();
}

function place(value: number, { from, to }: Axis): number {
  const share = to > from ? (value - from) / (to - from) : 0.5;
  return Math.min(WIDTH - 1, Math.max(0, Math.round(share * (WIDTH - 1))));
}

function label(value: number): string {
  return String(Number(value.toPrecision(4)));
}
