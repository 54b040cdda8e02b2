"use client";

import {
  CartesianGrid,
  Line,
  LineChart,
  ReferenceLine,
  ResponsiveContainer,
  Tooltip,
  XAxis,
  YAxis,
} from "recharts";
import { percent, whole } from "@/lib/ui/format";
import { designMessages } from "@/lib/ui/messages/en/design";
import { type CurveLine, HEIGHT_PX, LINE_LOOKS } from "./power-curve-lines";

const words = designMessages.curve;
const TICKS = [0, 0.2, 0.4, 0.6, 0.8, 1];
const TEXT = { fill: "var(--quiet)", fontSize: 14 } as const;

interface Props {
  readonly lines: readonly CurveLine[];
  /** Growers the plan has now. */
  readonly planned: number;
}

/** The drawing itself. It is loaded by its frame only, since it brings a charting library along. */
export default function PowerCurveDrawing({ lines, planned }: Props) {
  const rows = rowsOf(lines);
  return (
    <ResponsiveContainer width="100%" height={HEIGHT_PX}>
      <LineChart data={rows} margin={{ top: 8, right: 14, bottom: 22, left: 0 }} accessibilityLayer={false}>
        <CartesianGrid stroke="var(--line)" vertical={false} />
        <XAxis
          dataKey="growers"
          type="number"
          domain={[0, "dataMax"]}
          tick={TEXT}
          stroke="var(--edge)"
          tickFormatter={whole}
          label={{ value: words.growers, position: "insideBottom", offset: -14, ...TEXT }}
        />
        <YAxis
          domain={[0, 1]}
          ticks={TICKS}
          tick={TEXT}
          stroke="var(--edge)"
          tickFormatter={percent}
          width={56}
        />
        <ReferenceLine y={0.8} stroke="var(--quiet)" />
        <ReferenceLine
          x={planned}
          stroke="var(--quiet)"
          label={{ value: words.planned, position: "insideTopLeft", ...TEXT }}
        />
        <Tooltip content={Reading} isAnimationActive={false} cursor={{ stroke: "var(--edge)" }} />
        {lines.map(({ line }) => (
          <Line
            key={line}
            dataKey={line}
            {...LINE_LOOKS[line]}
            type="linear"
            dot={false}
            connectNulls
            isAnimationActive={false}
          />
        ))}
      </LineChart>
    </ResponsiveContainer>
  );
}

/** One row per number of growers, with what each line says there. */
function rowsOf(lines: readonly CurveLine[]): Readonly<Record<string, number>>[] {
  const rows = new Map<number, Record<string, number>>();
  for (const { line, points } of lines) {
    for (const { growers, chance } of points) {
      rows.set(growers, { ...(rows.get(growers) ?? { growers }), [line]: chance });
    }
  }
  return [...rows.values()].sort((a, b) => a.growers! - b.growers!);
}

interface ReadingProps {
  readonly active?: boolean;
  readonly label?: string | number;
  readonly payload?: readonly { readonly dataKey?: unknown; readonly value?: unknown }[];
}

/** What the lines say where the pointer is. */
function Reading({ active, label, payload = [] }: ReadingProps) {
  if (!active || payload.length === 0) return null;
  return (
    <div className="rounded-[5px] border-2 border-line bg-panel px-3 py-2 text-[0.9375rem] tabular-nums">
      <p className="font-semibold">{words.growersThere(whole(Number(label)))}</p>
      {payload.map(({ dataKey, value }) => (
        <p key={String(dataKey)}>
          {words.lines[dataKey as CurveLine["line"]]} {percent(Number(value))}
        </p>
      ))}
    </div>
  );
}
